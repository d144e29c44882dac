import type { Bike } from '../../src/drivetrain/bike.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** The bike of made rides unless they name another. */
export const madeBike: Bike = {
  name: 'made bike',
  chainrings: [40],
  cassette: [11, 13, 15, 17, 20, 23, 26, 30, 34],
  rolloutMm: 2100,
  actuation: 'cable',
};

export const madeDoubleBike: Bike = { ...madeBike, name: 'made bike with two rings', chainrings: [34, 50] };

/** How a stretch is ridden. */
interface Stretch {
  /** Cadence towards which the rider brings the bike. */
  readonly cadenceRpm?: number;
  readonly powerW?: number;
}

/**
 * A ride written second by second, to test with: the rider pedals, sends the derailleur somewhere, and the chain goes where the test says.
 * Speed is smooth; cadence follows from the gear the chain is really on. Noise is seeded and small (0.4 % unless told otherwise).
 * Cogs and rings are indices, 0 = smallest.
 */
export class MadeRide {
  private readonly rows: { speed: number; cadence: number; power: number }[] = [];
  private readonly records: { timeS: number; cog: number; ring: number }[] = [];
  /** True cog and ring of each second; -1 = chain off. */
  readonly trueCog: number[] = [];
  readonly trueRing: number[] = [];
  private readonly random;
  private speed = 0;
  cog = 4;
  ring = 0;
  commandedCog = 4;
  commandedRing = 0;

  constructor(
    readonly bike: Bike = madeBike,
    private readonly noise = 0.004,
    seed = 1,
  ) {
    this.random = seededRandom(seed, 'made ride');
    this.ring = this.commandedRing = bike.chainrings.length - 1;
    this.speed = (80 / 60) * this.developmentM();
  }

  /** Seconds so far: the time of the next record. */
  get nowS(): number {
    return this.rows.length;
  }

  /** Metres a turn of the cranks in the gear the chain is on. */
  developmentM(cog = this.cog, ring = this.ring): number {
    return (((this.bike.rolloutMm ?? 2100) / 1000) * this.bike.chainrings[ring]) / this.bike.cassette[cog];
  }

  pedal(seconds: number, { cadenceRpm = 80, powerW = 180 }: Stretch = {}): this {
    for (let s = 0; s < seconds; s++) {
      const target = (cadenceRpm / 60) * this.developmentM() * (1 + 0.04 * Math.sin(this.nowS / 9));
      this.speed += 0.25 * (target - this.speed);
      this.row((this.speed / this.developmentM()) * 60, powerW * (1 + 0.1 * this.random.normal()));
    }
    return this;
  }

  /** The cranks stand still or turn too slowly to drive; `cadenceRpm` is what the sensor says. */
  coast(seconds: number, cadenceRpm = 0): this {
    for (let s = 0; s < seconds; s++) {
      this.speed = Math.max(0, this.speed - 0.15);
      this.row(cadenceRpm, 0);
    }
    return this;
  }

  /** Braking, with the cadence sensor holding its last value or showing `cadenceRpm`. */
  brake(seconds: number, cadenceRpm: number, powerW = 0): this {
    for (let s = 0; s < seconds; s++) {
      this.speed = Math.max(0, this.speed - 1.5);
      this.row(cadenceRpm, powerW);
    }
    return this;
  }

  /** Soft pedalling while the bike slows: the cranks turn at a part of the driven cadence and drive nothing. */
  followSoftly(seconds: number, part: number, powerW = 40): this {
    for (let s = 0; s < seconds; s++) {
      this.speed *= 0.965;
      this.row((part * this.speed * 60) / this.developmentM(), powerW);
    }
    return this;
  }

  stand(seconds: number): this {
    for (let s = 0; s < seconds; s++) {
      this.speed = 0;
      this.row(0, 0);
    }
    return this;
  }

  /** Chain off: the legs spin at `cadenceRpm` against nothing. */
  spinInVain(seconds: number, cadenceRpm: number, powerW = 0): this {
    const { cog } = this;
    this.cog = -1;
    for (let s = 0; s < seconds; s++) {
      this.speed = Math.max(0, this.speed - 0.3);
      this.row(cadenceRpm + 2 * (s % 3), powerW);
    }
    this.cog = cog;
    return this;
  }

  /** A gear record and nothing else: the chain stays where it is. */
  command(cog: number, ring = this.commandedRing): this {
    this.commandedCog = cog;
    this.commandedRing = ring;
    this.records.push({ timeS: this.nowS, cog, ring });
    return this;
  }

  /** The chain goes somewhere and no record says so. */
  move(cog: number, ring = this.ring): this {
    this.cog = cog;
    this.ring = ring;
    return this;
  }

  /** A shift that is done `afterS` seconds after its record, the usual sensors' lag. */
  shift(cog: number, afterS = 1): this {
    return this.command(cog).pedal(afterS).move(cog);
  }

  /** Ordinary riding: a shift of one cog every `everyS` seconds, to and fro over the given cogs. */
  wander(shifts: number, everyS = 12, cogs: readonly [number, number] = [2, 6]): this {
    let direction = this.cog >= cogs[1] ? -1 : 1;
    for (let n = 0; n < shifts; n++) {
      this.shift(this.cog + direction).pedal(everyS - 1);
      if (this.cog >= cogs[1]) direction = -1;
      if (this.cog <= cogs[0]) direction = 1;
    }
    return this;
  }

  private row(cadence: number, power: number): void {
    this.rows.push({
      speed: Math.max(0, this.speed * (1 + this.noise * this.random.normal())),
      cadence: Math.round(cadence),
      power: Math.max(0, Math.round(power)),
    });
    this.trueCog.push(this.cog);
    this.trueRing.push(this.ring);
  }

  /** The log of the ride; its first gear record is the state at the start. */
  log(changes: Partial<RideLog> = {}): RideLog {
    const { cassette, chainrings } = this.bike;
    const records = [{ timeS: 0, cog: 4, ring: chainrings.length - 1 }, ...this.records];
    return {
      file: 'made',
      format: 'fit',
      sport: 'cycling',
      startMs: Date.parse('2026-05-01T08:00:00Z'),
      timeS: Float64Array.from(this.rows, (_, i) => i),
      speedMps: Float64Array.from(this.rows, (row) => row.speed),
      cadenceRpm: Float64Array.from(this.rows, (row) => row.cadence),
      powerW: Float64Array.from(this.rows, (row) => row.power),
      distanceM: new Float64Array(this.rows.length).fill(Number.NaN),
      speedSource: 'wheel',
      gearRecords: {
        timeS: Float64Array.from(records, (record) => record.timeS),
        rearTeeth: Uint8Array.from(records, (record) => cassette[record.cog]),
        frontTeeth: Uint8Array.from(records, (record) => chainrings[record.ring]),
        rearPosition: Uint8Array.from(records, (record) => cassette.length - record.cog),
        frontPosition: Uint8Array.from(records, (record) => record.ring + 1),
        wholeSeconds: true,
      },
      warnings: [],
      ...changes,
    };
  }
}

/** Share of records with speed and cadence, at least 4 s after any true change of cog, in which the trace names the true cog. */
export function shareRight(ride: MadeRide, cog: Int8Array, log: RideLog): number {
  let right = 0;
  let of = 0;
  let since = 0;
  ride.trueCog.forEach((truly, i) => {
    since = i > 0 && truly !== ride.trueCog[i - 1] ? 0 : since + 1;
    if (since < 4 || truly < 0 || !(log.cadenceRpm[i] > 30) || !(log.speedMps[i] > 1)) return;
    of++;
    if (cog[i] === truly) right++;
  });
  return right / of;
}

/** A log with the given columns of gear records only. */
export function gearRecords(
  rows: readonly { timeS: number; rear?: number; front?: number; rearTeeth?: number; frontTeeth?: number }[],
  wholeSeconds = true,
): RideLog['gearRecords'] {
  return {
    timeS: Float64Array.from(rows, (row) => row.timeS),
    rearPosition: Uint8Array.from(rows, (row) => row.rear ?? 0),
    frontPosition: Uint8Array.from(rows, (row) => row.front ?? 0),
    rearTeeth: Uint8Array.from(rows, (row) => row.rearTeeth ?? 0),
    frontTeeth: Uint8Array.from(rows, (row) => row.frontTeeth ?? 0),
    wholeSeconds,
  };
}

/** A log of the given columns, one record a second. Left out columns are unknown. */
export function madeLog(columns: {
  readonly speedMps: readonly number[];
  readonly cadenceRpm: readonly number[];
  readonly powerW?: readonly number[];
  readonly timeS?: readonly number[];
  readonly gearRecords?: RideLog['gearRecords'];
}): RideLog {
  const count = columns.speedMps.length;
  const unknown = new Float64Array(count).fill(Number.NaN);
  return {
    file: 'made',
    format: 'csv',
    sport: 'cycling',
    startMs: 0,
    timeS: columns.timeS ? Float64Array.from(columns.timeS) : Float64Array.from({ length: count }, (_, i) => i),
    speedMps: Float64Array.from(columns.speedMps),
    cadenceRpm: Float64Array.from(columns.cadenceRpm),
    powerW: columns.powerW ? Float64Array.from(columns.powerW) : unknown,
    distanceM: unknown,
    speedSource: 'wheel',
    gearRecords: columns.gearRecords ?? gearRecords([]),
    warnings: [],
  };
}

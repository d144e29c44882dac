import { beforeAll, describe, expect, it } from 'vitest';
import { type AnalysedRide, analyseRide } from '../../src/analyse.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { rideReport } from '../../src/report/ride-report.ts';
import type { ShiftEvent } from '../../src/shifts/ride-events.ts';
import { MadeRide, madeBike, madeDoubleBike } from '../gear-trace/made-ride.ts';

const analysed = (ride: MadeRide): AnalysedRide => analyseRide(ride.log(), ride.bike);
const outcomes = (shifts: readonly ShiftEvent[]): string[] => shifts.map(({ outcome }) => outcome);
const shiftAt = ({ events }: AnalysedRide, timeS: number): ShiftEvent => {
  const found = events.shifts.find((shift) => shift.timeS === timeS);
  if (!found) throw new Error(`no shift at ${timeS} s`);
  return found;
};

describe('a healthy ride', () => {
  const ride = new MadeRide().pedal(30).wander(50).pedal(20);
  let judged: AnalysedRide;
  beforeAll(() => {
    judged = analysed(ride);
  });

  it('has clean shifts and no events', () => {
    expect(judged.events.shifts.length).toBe(50);
    expect(new Set(outcomes(judged.events.shifts))).toEqual(new Set(['clean']));
    expect(judged.events.ghostShifts).toEqual([]);
    expect(judged.events.chainDrops).toEqual([]);
    expect(judged.events.skips).toEqual([]);
  });

  it('gives each shift its cogs, direction, probabilities, turns and load', () => {
    for (const shift of judged.events.shifts) {
      expect(Math.abs(shift.toCog - shift.fromCog)).toBe(1);
      expect(shift.direction).toBe(shift.toCog > shift.fromCog ? 'to-larger' : 'to-smaller');
      const { clean, late, missed, overshot } = shift.probability;
      expect(clean + late + missed + overshot).toBeCloseTo(1, 9);
      expect(shift.confidence).toBe(clean);
      expect(shift.confidence).toBeGreaterThan(0.9);
      expect(shift.crankRevs).toBeGreaterThanOrEqual(0);
      expect(shift.crankRevs).toBeLessThanOrEqual(1.5);
      expect(shift.weak).toBe(false);
      expect(shift.torqueNm).toBeGreaterThan(10);
      expect(shift.torqueNm).toBeLessThan(40);
      expect(shift.cadenceRpm).toBeGreaterThan(60);
    }
  });

  it('tells the sensors’ lag and the seconds pedalled on each cog', () => {
    expect(judged.sensorLagS).toBeGreaterThanOrEqual(-0.5);
    expect(judged.sensorLagS).toBeLessThanOrEqual(1.5);
    const truly = new Float64Array(9);
    for (const cog of ride.trueCog) truly[cog]++;
    judged.events.pedallingSByCog.forEach((seconds, cog) => {
      expect(Math.abs(seconds - truly[cog])).toBeLessThan(25);
    });
    const sum = (a: Float64Array): number => a.reduce((x, y) => x + y, 0);
    expect(Math.abs(sum(judged.events.pedallingSByCog) - sum(truly))).toBeLessThan(12);
  });

  it('is judged alike when all times are moved', () => {
    const log = ride.log();
    const moved = analyseRide(
      {
        ...log,
        timeS: log.timeS.map((t) => t + 900),
        gearRecords: { ...log.gearRecords, timeS: log.gearRecords.timeS.map((t) => t + 900) },
      },
      madeBike,
    );
    expect(outcomes(moved.events.shifts)).toEqual(outcomes(judged.events.shifts));
    expect(moved.events.shifts[7].timeS).toBe(judged.events.shifts[7].timeS + 900);
    expect(moved.events.shifts[7].confidence).toBeCloseTo(judged.events.shifts[7].confidence, 6);
  });
});

describe('hours of pedalling', () => {
  it.each([6, 9])('are the same in the ride and on its cogs where records come every %i s', (everyS) => {
    const log = new MadeRide().pedal(30).wander(80).log();
    const sparse = (values: Float64Array): Float64Array => values.filter((_, i) => i % everyS === 0);
    const { timeS, speedMps, cadenceRpm, powerW, distanceM } = log;
    const ride = analyseRide(
      {
        ...log,
        timeS: sparse(timeS),
        speedMps: sparse(speedMps),
        cadenceRpm: sparse(cadenceRpm),
        powerW: sparse(powerW),
        distanceM: sparse(distanceM),
      },
      madeBike,
    );
    const { pedallingS } = rideReport(ride, madeBike);
    const onCogs = ride.events.pedallingSByCog.reduce((sum, seconds) => sum + seconds, 0);
    expect(Math.abs(pedallingS - timeS.length)).toBeLessThan(2 * everyS);
    expect(onCogs / pedallingS).toBeGreaterThan(0.97);
    expect(onCogs).toBeLessThanOrEqual(pedallingS);
  });
});

describe('commands never hide a missed shift', () => {
  // thirty good shifts, then commands to which the chain does not answer, each taken back after half a minute
  const ride = new MadeRide().pedal(30).wander(30);
  const misses: number[] = [];
  const backs: number[] = [];
  for (let n = 0; n < 3; n++) {
    const { cog } = ride;
    misses.push(ride.nowS);
    ride.command(cog + (n % 2 === 0 ? 1 : -1)).pedal(30);
    backs.push(ride.nowS);
    ride.command(cog).pedal(20);
    ride.wander(3);
  }
  ride.pedal(20);
  let judged: AnalysedRide;
  beforeAll(() => {
    judged = analysed(ride);
  });

  it('names the cog the chain was on, not the one commanded', () => {
    for (const at of misses) for (let i = at + 4; i < at + 29; i++) expect(judged.trace.cog[i]).toBe(ride.trueCog[i]);
  });

  it('calls each of them missed, surely, and the way back no trouble', () => {
    for (const at of misses) {
      const shift = shiftAt(judged, at);
      expect(shift.outcome).toBe('missed');
      expect(shift.confidence).toBeGreaterThan(0.9);
      expect(shift.crankRevs).toBeNull();
    }
    for (const at of backs) expect(shiftAt(judged, at).outcome).toBe('clean');
    expect(outcomes(judged.events.shifts).filter((outcome) => outcome !== 'clean').length).toBe(misses.length);
  });

  it('finds a shift missed to the largest cog of all, time and again', () => {
    const stuck = new MadeRide().pedal(30).wander(20);
    while (stuck.cog < 7) stuck.shift(stuck.cog + 1).pedal(10);
    const at: number[] = [];
    for (let n = 0; n < 4; n++) {
      at.push(stuck.nowS);
      stuck.command(8).pedal(25).command(7).pedal(15);
    }
    const all = analysed(stuck);
    expect(at.map((timeS) => shiftAt(all, timeS).outcome)).toEqual(['missed', 'missed', 'missed', 'missed']);
  });
});

describe('outcomes by crank turns', () => {
  // at 80 rpm a turn takes 0.75 s; exact times and sensors without lag, so that turns can be told
  const ride = new MadeRide().pedal(30).wander(40);
  const lateAt = ride.nowS;
  // three turns after the usual moment
  ride.command(ride.cog + 1).pedal(1 + 3);
  ride.move(ride.cog + 1).pedal(20);
  const veryLateAt = ride.nowS;
  ride.command(ride.cog + 1).pedal(1 + 9);
  ride.move(ride.cog + 1).pedal(20);
  const overshotAt = ride.nowS;
  ride.command(ride.cog - 1).pedal(1);
  ride.move(ride.cog - 2).pedal(25);
  ride.command(ride.cog).pedal(20);
  let judged: AnalysedRide;
  beforeAll(() => {
    judged = analysed(ride);
  });

  it('finds a shift that took three to five turns late', () => {
    const late = shiftAt(judged, lateAt);
    expect(late.outcome).toBe('late');
    expect(late.crankRevs).toBeGreaterThan(2);
    expect(late.crankRevs).toBeLessThanOrEqual(5);
  });

  it('calls one that took more than five turns missed', () => {
    expect(shiftAt(judged, veryLateAt)).toMatchObject({ outcome: 'missed', crankRevs: null });
  });

  it('finds a shift over several cogs late where the chain halts on the last cog before', () => {
    const halting = new MadeRide().pedal(30).wander(40);
    const toCog = halting.cog > 4 ? halting.cog - 3 : halting.cog + 3;
    const haltCog = toCog - Math.sign(toCog - halting.cog);
    const promptAt = halting.nowS;
    halting.command(toCog).pedal(1).move(toCog).pedal(20);
    const startCog = halting.cog > 4 ? halting.cog - 3 : halting.cog + 3;
    const haltedAt = [1, 2].map(() => {
      halting.command(startCog).pedal(1).move(startCog).pedal(20, { cadenceRpm: 60 });
      const atS = halting.nowS;
      halting.command(toCog).pedal(1, { cadenceRpm: 60 }).move(haltCog).pedal(4, { cadenceRpm: 60 });
      halting.move(toCog).pedal(20);
      return atS;
    });
    const all = analysed(halting);
    expect(shiftAt(all, promptAt).outcome).toBe('clean');
    expect(haltedAt.map((atS) => shiftAt(all, atS).outcome)).toEqual(['late', 'late']);
  });

  it('finds it late too where the halt is short, and begins as late as a healthy shift may end', () => {
    const halting = new MadeRide().pedal(30).wander(40);
    const down = halting.cog > 4 ? -2 : 2;
    const haltedAt = [1, -1, 1, -1].map((way) => {
      const toCog = halting.cog + way * down;
      const haltCog = halting.cog + (way * down) / 2;
      halting.pedal(20, { cadenceRpm: 70 });
      const atS = halting.nowS;
      halting.command(toCog).pedal(1, { cadenceRpm: 70 }).move(haltCog).pedal(3, { cadenceRpm: 70 });
      halting.move(toCog).pedal(20, { cadenceRpm: 70 });
      return atS;
    });
    const all = analysed(halting);
    expect(haltedAt.map((atS) => shiftAt(all, atS).outcome)).toEqual(['late', 'late', 'late', 'late']);
  });

  it('tells a chain that settles beyond the commanded cog', () => {
    expect(shiftAt(judged, overshotAt).outcome).toBe('overshot');
  });
});

describe('unjudged', () => {
  it('is a shift with less than 2 s of pedalling before the next, or none at all', () => {
    const ride = new MadeRide().pedal(30).wander(20);
    const coasting = ride.nowS;
    ride
      .command(ride.cog + 1)
      .coast(10)
      .command(ride.cog + 2)
      .move(ride.cog + 2)
      .pedal(30);
    const last = ride.nowS;
    ride
      .command(ride.cog - 1)
      .pedal(1)
      .coast(20);
    const judged = analysed(ride);
    for (const timeS of [coasting, last]) {
      const shift = shiftAt(judged, timeS);
      expect(shift).toMatchObject({
        outcome: 'unjudged',
        unjudgedBecause: 'no-pedalling',
        crankRevs: null,
      });
      expect(Object.values(shift.probability)).toEqual([0, 0, 0, 0]);
    }
    expect(shiftAt(judged, coasting + 10).outcome).not.toBe('unjudged');
  });

  it('is every shift while the cadence sensor is silent', () => {
    const ride = new MadeRide().pedal(30).wander(20);
    const from = ride.nowS;
    ride.wander(20);
    const to = ride.nowS;
    ride.wander(20);
    const log = ride.log();
    const silent = log.cadenceRpm.map((rpm, i) => (i >= from - 5 && i < to + 5 ? Number.NaN : rpm));
    const { events } = analyseRide({ ...log, cadenceRpm: silent }, madeBike);
    const within = events.shifts.filter(({ timeS }) => timeS >= from && timeS < to - 5);
    expect(new Set(outcomes(within))).toEqual(new Set(['unjudged']));
    expect(events.shifts.filter(({ outcome }) => outcome !== 'unjudged' && outcome !== 'clean')).toEqual([]);
    expect(events.chainDrops).toEqual([]);
    expect(events.ghostShifts).toEqual([]);
  });
});

describe('the lag of a ride', () => {
  it('is said only where its shifts tell it', () => {
    const lagOf = (shifts: number): number =>
      analyseRide(new MadeRide().pedal(90).wander(shifts).pedal(60).log(), madeBike).sensorLagS;
    expect(lagOf(0)).toBeNaN();
    expect(lagOf(40)).toBeGreaterThan(-0.5);
  });
});

describe('a ride without cadence', () => {
  it('is judged by the rider’s answers alone, and weakly', () => {
    const log = new MadeRide().pedal(30).wander(20).log();
    const { trace, events, sensorLagS } = analyseRide(
      { ...log, cadenceRpm: log.cadenceRpm.map(() => Number.NaN) },
      madeBike,
    );
    expect(trace.evidence).toBe('commands-only');
    expect(sensorLagS).toBeNaN();
    expect(events.shifts.length).toBe(20);
    expect(events.shifts.every(({ weak, unjudgedBecause }) => weak && unjudgedBecause === 'no-cadence')).toBe(true);
    expect([...events.ghostShifts, ...events.chainDrops, ...events.skips]).toEqual([]);
    expect(events.pedallingSByCog.every((seconds) => seconds === 0)).toBe(true);
  });
});

describe('a ride with cadence and gear records but no speed that shows the gears', () => {
  it.each(['none at all', 'computed'])('is judged no more, and not said to lack cadence: speed %s', (speed) => {
    const log = new MadeRide().pedal(30).wander(20).log();
    const unknown = log.speedMps.map(() => Number.NaN);
    const { trace, events } = analyseRide(
      { ...log, ...(speed === 'computed' ? { speedSource: 'computed' } : { speedMps: unknown }) },
      madeBike,
    );
    expect([trace.evidence, trace.gearSource]).toEqual(['commands-only', 'recorded']);
    expect(events.shifts.length).toBe(20);
    expect(events.shifts.every(({ weak, unjudgedBecause }) => weak && unjudgedBecause === 'no-drive-seen')).toBe(true);
  });
});

describe('a ride without gear records', () => {
  it('has no shifts and no ghost shifts', () => {
    const log = new MadeRide().pedal(60).wander(20).log();
    const none = { ...log.gearRecords, timeS: new Float64Array() };
    const { trace, events, sensorLagS } = analyseRide({ ...log, gearRecords: none }, madeBike);
    expect(trace.evidence).toBe('ratio-only');
    expect(sensorLagS).toBeNaN();
    expect([...events.shifts, ...events.ghostShifts, ...events.skips, ...events.chainDrops]).toEqual([]);
  });
});

describe('two rings', () => {
  it('judges shifts on both, and a change of ring is none', () => {
    const ride = new MadeRide(madeDoubleBike).pedal(30).wander(20);
    ride.command(ride.cog, 0).pedal(1).move(ride.cog, 0).pedal(20).wander(20);
    const { events } = analysed(ride);
    expect(events.shifts.length).toBe(40);
    expect(outcomes(events.shifts).filter((outcome) => outcome !== 'clean').length).toBeLessThanOrEqual(1);
    expect([...events.ghostShifts, ...events.chainDrops]).toEqual([]);
  });
});

describe('seeds', () => {
  it('judges five noisy healthy rides with at most one shift in a hundred called trouble', () => {
    let trouble = 0;
    let all = 0;
    for (let seed = 1; seed <= 5; seed++) {
      const random = seededRandom(seed, 'pace');
      const ride = new MadeRide(madeBike, 0.008, seed).pedal(30);
      for (let n = 0; n < 8; n++)
        ride
          .wander(5, 9 + random.integer(6))
          .coast(random.integer(8))
          .pedal(10);
      const { events } = analysed(ride);
      all += events.shifts.length;
      trouble += outcomes(events.shifts).filter((outcome) => outcome !== 'clean' && outcome !== 'unjudged').length;
      expect([...events.ghostShifts, ...events.chainDrops]).toEqual([]);
    }
    expect(all).toBe(200);
    expect(trouble).toBeLessThanOrEqual(2);
  });
});

describe('shifts asked for while coasting', () => {
  // a quarter of a minute and more of coasting, longer than any answer takes: the chain answers once the cranks turn
  const ride = new MadeRide().pedal(30).wander(30).shift(5).pedal(12);
  const at: Record<string, number> = {};
  const coastTo = (name: string, cog: number): MadeRide => {
    ride.coast(2);
    at[name] = ride.nowS;
    return ride.command(cog).coast(18);
  };
  coastTo('done', 2).move(2).pedal(20);
  coastTo('late', 4).pedal(4).move(4).pedal(20);
  coastTo('not done', 1).pedal(20).command(ride.cog).pedal(20);
  coastTo('never pedalled', 3).command(ride.cog).coast(10);
  ride.pedal(20);

  it('are judged by the turns made after it', () => {
    const judged = analysed(ride);
    expect(shiftAt(judged, at.done)).toMatchObject({ outcome: 'clean' });
    const late = shiftAt(judged, at.late);
    expect(late.outcome).toBe('late');
    // three seconds and the sensors' one, beginning at about 50 rpm
    expect(Math.abs((late.crankRevs ?? 0) - 3)).toBeLessThan(1);
    expect(shiftAt(judged, at['not done'])).toMatchObject({ outcome: 'missed', crankRevs: null });
  });

  it('are not judged where the rider shifts again before pedalling', () => {
    const judged = analysed(ride);
    expect(shiftAt(judged, at['never pedalled'])).toMatchObject({ outcome: 'unjudged', crankRevs: null });
  });
});

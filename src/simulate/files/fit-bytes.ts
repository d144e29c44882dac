import { FitEncoder, type FitEncoderField } from 'fit-file-parser/encoder';
import type { GearRecords, RideLog } from '../../ride-log/ride-log.ts';
import { byteField, enumField, longField, shortField } from './fit-fields.ts';

const message = { fileId: 0, session: 18, lap: 19, record: 20, event: 21, deviceInfo: 23, activity: 34 } as const;
/** Local number of each message: under it the encoder defines the message once. */
const local = { fileId: 0, event: 1, record: 2, lap: 3, session: 4, activity: 5, deviceInfo: 6 } as const;
/** Device types by the network they are counted in (source 1: the sensors' network, 5: within the recorder). */
const device = { speedSensor: [123, 1], satelliteReceiver: [0, 5], shifting: [34, 1] } as const;
const event = { timer: 0, session: 8, lap: 9, activity: 26, frontGear: 42, rearGear: 43 } as const;
const eventType = { start: 0, stop: 1, marker: 3, stopAll: 4 } as const;
const CYCLING = 2;
/** Manufacturer number that the profile keeps for development. */
const DEVELOPMENT = 255;
const EPOCH_MS = 631_065_600_000;

/** Gear word as devices pack it: rear position, rear teeth, front position, front teeth from the low byte up; 0 and 255 unknown. */
export function gearWord(rearPosition: number, rearTeeth: number, frontPosition: number, frontTeeth: number): number {
  const front = frontPosition || 255;
  return (rearPosition | (rearTeeth << 8) | (front << 16) | (frontTeeth << 24)) >>> 0;
}

/** A ride as a FIT activity file. Gear records stand among the ride records at their time, as events 43 (and 42 for the ring). */
export function fitBytes(log: RideLog): Uint8Array {
  return new FitRideWriter(log).write();
}

/** Writes one ride, message by message. Times that its methods take are seconds of the ride. */
class FitRideWriter {
  readonly #encoder = new FitEncoder();
  readonly #log: RideLog;
  readonly #startS: number;
  readonly #lastS: number;
  readonly #has: { readonly cadence: boolean; readonly power: boolean };
  #nextGear = 0;
  /** Position of the ring last written; -1 before the first. */
  #ring = -1;

  constructor(log: RideLog) {
    this.#log = log;
    this.#startS = Math.round((log.startMs - EPOCH_MS) / 1000);
    this.#lastS = Math.floor(log.timeS.at(-1) ?? 0);
    this.#has = { cadence: hasValue(log.cadenceRpm), power: hasValue(log.powerW) };
  }

  write(): Uint8Array {
    this.#writeFileId();
    this.#writeDevices();
    this.#writeEvent(0, event.timer, eventType.start, 0);
    for (let i = 0; i < this.#log.timeS.length; i++) {
      this.#writeGearsUntil(this.#log.timeS[i]);
      this.#encoder.writeMessage(message.record, this.#recordFields(i), local.record);
    }
    this.#writeGearsUntil(Number.POSITIVE_INFINITY);
    this.#writeEvent(this.#lastS, event.timer, eventType.stopAll, 0);
    this.#writeSummaries();
    return this.#encoder.close();
  }

  #time(timeS: number): FitEncoderField {
    return longField(253, this.#startS + Math.floor(timeS));
  }

  #writeFileId(): void {
    const fields = [enumField(0, 4), shortField(1, DEVELOPMENT), shortField(2, 1), longField(4, this.#startS)];
    this.#encoder.writeMessage(message.fileId, fields, local.fileId);
  }

  #writeDevices(): void {
    const { speedSource, gearRecords } = this.#log;
    const devices: (readonly [number, number])[] = [
      speedSource === 'satellite' ? device.satelliteReceiver : device.speedSensor,
    ];
    if (gearRecords.timeS.length > 0) devices.push(device.shifting);
    devices.forEach(([type, source], i) => {
      const fields = [this.#time(0), byteField(0, i + 1), byteField(1, type), enumField(25, source)];
      this.#encoder.writeMessage(message.deviceInfo, fields, local.deviceInfo);
    });
  }

  #writeEvent(timeS: number, of: number, type: number, data: number): void {
    const fields = [this.#time(timeS), longField(3, data), enumField(0, of), enumField(1, type)];
    this.#encoder.writeMessage(message.event, fields, local.event);
  }

  /** Writes the gear records up to the second of `timeS` that are not written yet. */
  #writeGearsUntil(timeS: number): void {
    const { gearRecords: gears } = this.#log;
    for (; this.#nextGear < gears.timeS.length; this.#nextGear++) {
      if (Math.floor(gears.timeS[this.#nextGear]) > timeS) return;
      this.#writeGear(gears, this.#nextGear);
    }
  }

  #writeGear(gears: GearRecords, i: number): void {
    const ring = gears.frontPosition[i];
    const word = gearWord(gears.rearPosition[i], gears.rearTeeth[i], ring, gears.frontTeeth[i]);
    if (ring !== this.#ring && ring !== 0) this.#writeEvent(gears.timeS[i], event.frontGear, eventType.marker, word);
    this.#ring = ring;
    this.#writeEvent(gears.timeS[i], event.rearGear, eventType.marker, word);
  }

  /** Missing values are written as the invalid value of their type; a column with no value at all is left out. */
  #recordFields(i: number): FitEncoderField[] {
    const log = this.#log;
    const fields = [
      this.#time(log.timeS[i]),
      longField(5, orInvalid(100 * log.distanceM[i], 0xffffffff)),
      shortField(6, orInvalid(1000 * log.speedMps[i], 0xffff)),
    ];
    if (this.#has.cadence) fields.push(byteField(4, orInvalid(log.cadenceRpm[i], 0xff)));
    if (this.#has.power) fields.push(shortField(7, orInvalid(log.powerW[i], 0xffff)));
    return fields;
  }

  /** Lap, session and activity, each over the whole ride. */
  #writeSummaries(): void {
    const movingMs = this.#log.timeS.length * 1000;
    const summary = [
      this.#time(this.#lastS),
      longField(2, this.#startS),
      longField(7, this.#lastS * 1000),
      longField(8, movingMs),
      longField(9, Math.round(100 * (this.#log.distanceM.at(-1) ?? 0))),
      enumField(1, eventType.stop),
    ];
    const lap = [...summary, enumField(0, event.lap)];
    const session = [...summary, enumField(0, event.session), enumField(5, CYCLING), enumField(6, 0)];
    const activity = [
      this.#time(this.#lastS),
      longField(0, movingMs),
      shortField(1, 1),
      enumField(2, 0),
      enumField(3, event.activity),
      enumField(4, eventType.stop),
    ];
    this.#encoder.writeMessage(message.lap, lap, local.lap);
    this.#encoder.writeMessage(message.session, session, local.session);
    this.#encoder.writeMessage(message.activity, activity, local.activity);
  }
}

const orInvalid = (value: number, invalid: number): number =>
  Number.isNaN(value) ? invalid : Math.min(invalid - 1, Math.max(0, Math.round(value)));
const hasValue = (column: Float64Array): boolean => column.some((value) => !Number.isNaN(value));

import { FitEncoder, type FitFieldSpec, type FrameOptions } from './fit-encoder.ts';

/** FIT seconds of 2026-06-01T08:00:00Z. */
export const START = Date.UTC(2026, 5, 1, 8) / 1000 - 631_065_600;

/** A record by its raw values, as they stand in the file. Left out: the type's invalid value. */
export interface RawRecord {
  readonly time: number;
  readonly speed?: number;
  readonly cadence?: number;
  readonly fractional?: number;
  readonly power?: number;
  readonly distance?: number;
}

export interface RawGear {
  readonly time: number;
  readonly word: number;
  readonly front?: boolean;
}

interface RideOptions extends FrameOptions {
  readonly bigEndian?: boolean;
  readonly enhanced?: boolean;
  readonly compressed?: boolean;
  /** Gear records stand behind the last ride record, in falling order of time. */
  readonly gearsLast?: boolean;
  readonly sport?: number;
  readonly subSport?: number;
}

const RECORD: readonly FitFieldSpec[] = [
  [4, 'uint8'],
  [53, 'uint8'],
  [7, 'uint16'],
  [5, 'uint32'],
];
const SPEED: FitFieldSpec = [6, 'uint16'];
const ENHANCED: FitFieldSpec = [73, 'uint32'];
const TIME: FitFieldSpec = [253, 'uint32'];

/** A ride as one FIT segment: records on local type 0 (and 1 with compressed headers), gears on 2, session on 3. */
export function fitRide(
  records: readonly RawRecord[],
  gears: readonly RawGear[] = [],
  options: RideOptions = {},
): Uint8Array<ArrayBuffer> {
  const encoder = new FitEncoder(options);
  const fields = [...RECORD, options.enhanced ? ENHANCED : SPEED];
  encoder.define(0, 20, [TIME, ...fields]).define(1, 20, fields);
  encoder.define(2, 21, [TIME, [0, 'enum'], [1, 'enum'], [3, 'uint32']]);
  encoder.define(3, 18, [TIME, [2, 'uint32'], [5, 'enum'], [6, 'enum'], [7, 'uint32']]);
  const noSpeed = options.enhanced ? 0xffffffff : 0xffff;
  const values = (record: RawRecord): number[] => [
    record.cadence ?? 0xff,
    record.fractional ?? 0xff,
    record.power ?? 0xffff,
    record.distance ?? 0xffffffff,
    record.speed ?? noSpeed,
  ];
  const gear = ({ time, word, front }: RawGear): unknown => encoder.record(2, [time, front ? 42 : 43, 3, word]);
  const waiting = [...gears];
  let last = -1;
  for (const record of records) {
    if (!options.gearsLast) while (waiting.length > 0 && waiting[0].time <= record.time) gear(waiting.shift()!);
    if (options.compressed && last >= 0 && record.time - last < 32 && record.time >= last)
      encoder.compressed(1, record.time & 31, values(record));
    else encoder.record(0, [record.time, ...values(record)]);
    last = record.time;
  }
  for (const left of options.gearsLast ? waiting.reverse() : waiting) gear(left);
  const start = records[0]?.time ?? START;
  const end = records.at(-1)?.time ?? START;
  encoder.record(3, [end, start, options.sport ?? 2, options.subSport ?? 0, (end - start) * 1000]);
  return encoder.segment(options);
}

/** A plain ride of `count` seconds at 8 m/s and 90 rpm. */
export const plainRecords = (count: number, start = START): RawRecord[] =>
  Array.from({ length: count }, (_, i) => ({
    time: start + i,
    speed: 8000,
    cadence: 90,
    power: 200,
    distance: 800 * i,
  }));

import { FileError } from '../errors/file-error.ts';
import type { Warning } from '../errors/warning.ts';
import { GrowingColumn } from './growing-column.ts';
import type { RideLog, SpeedSource } from './ride-log.ts';

/** Most ride records that one file may hold: over five days and nights at one a second. Bounds memory and time. */
export const MOST_RECORDS = 500_000;
/** Most gear records that one file may hold: one a second for more than a day and a night. */
export const MOST_GEAR_RECORDS = 100_000;

/** One ride record as a decoder reads it; NaN for what is missing. */
export interface DraftRecord {
  timeMs: number;
  speedMps: number;
  cadenceRpm: number;
  powerW: number;
  distanceM: number;
  /** Length of the path through the positions so far, m. The positions themselves are never kept. */
  pathM: number;
}

/** One gear record as a decoder reads it; 0 for what it does not name, teeth NaN where what it names cannot be read. */
export interface DraftGear {
  timeMs: number;
  rearTeeth: number;
  frontTeeth: number;
  rearPosition: number;
  frontPosition: number;
}

/**
 * What a decoder has read so far, in the file's own order and with all its faults: times may repeat, run backwards or
 * jump, values may be impossible. `finishRide` makes a `RideLog` of it.
 */
export class RideDraft {
  readonly timeMs = new GrowingColumn();
  readonly speedMps = new GrowingColumn();
  readonly cadenceRpm = new GrowingColumn();
  readonly powerW = new GrowingColumn();
  readonly distanceM = new GrowingColumn();
  readonly pathM = new GrowingColumn();
  readonly gears: DraftGear[] = [];
  /** Indices of the first record of each run: a FIT segment, a lap or track of TCX, a track segment of GPX. */
  readonly runStarts: number[] = [0];
  readonly pausesMs: { startMs: number; endMs: number }[] = [];
  readonly warnings: Warning[] = [];
  sport: string | null = null;
  subSport: string | null = null;
  /** Where recorded speed comes from, where the file tells. */
  speedSource: SpeedSource = 'unknown';
  /** Records left out because they have no time. */
  timeless = 0;

  constructor(
    readonly file: string,
    readonly format: RideLog['format'],
  ) {}

  get length(): number {
    return this.timeMs.length;
  }

  /** Adds a record. One without a valid time is only counted, in `timeless`. Throws `too-many-records`. */
  add(record: DraftRecord): void {
    if (this.length + this.timeless >= MOST_RECORDS) throw tooManyRecords(this.file, 'ride', MOST_RECORDS);
    if (!Number.isFinite(record.timeMs)) {
      this.timeless++;
      return;
    }
    this.timeMs.push(record.timeMs);
    this.speedMps.push(record.speedMps);
    this.cadenceRpm.push(record.cadenceRpm);
    this.powerW.push(record.powerW);
    this.distanceM.push(record.distanceM);
    this.pathM.push(record.pathM);
  }

  addGear(gear: DraftGear): void {
    if (!Number.isFinite(gear.timeMs)) return;
    if (this.gears.length >= MOST_GEAR_RECORDS) throw tooManyRecords(this.file, 'gear', MOST_GEAR_RECORDS);
    this.gears.push(gear);
  }

  /** The next record begins a new run. */
  beginRun(): void {
    if (this.runStarts.at(-1) !== this.length) this.runStarts.push(this.length);
  }

  warn(code: string, message: string): void {
    this.warnings.push({ code, message });
  }
}

/** The error `too-many-records`. */
export const tooManyRecords = (file: string, kind: 'ride' | 'gear', most: number): FileError =>
  new FileError(
    file,
    'too-many-records',
    `holds more than ${most.toLocaleString('en')} ${kind} records`,
    'Split the file into single rides.',
  );

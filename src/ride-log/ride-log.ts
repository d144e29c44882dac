import type { Warning } from '../errors/warning.ts';

/** Where the speed column came from. `computed`: a virtual ride's, which was not ridden and shows no gear. */
export type SpeedSource = 'wheel' | 'satellite' | 'positions' | 'distance' | 'computed' | 'unknown';

/** A stretch in which the recorder's clock was stopped, seconds since the log's start. */
export interface Pause {
  readonly startS: number;
  readonly endS: number;
}

/**
 * Gear records as columns with one shared index, sorted by time. A record tells where the derailleur was told to go,
 * not where the chain is. 0 means unknown in every column of teeth and positions.
 * Positions count from the innermost (1 = largest cog, 1 = smallest ring), as FIT gear words do.
 */
export interface GearRecords {
  /** Seconds since the log's start, rising, ties allowed. Negative for a state recorded just before the first record. */
  readonly timeS: Float64Array;
  readonly rearTeeth: Uint8Array;
  readonly frontTeeth: Uint8Array;
  readonly rearPosition: Uint8Array;
  readonly frontPosition: Uint8Array;
  /** 1 where a record names teeth that cannot be: from there on the cog or ring is not known, until a record names it. Absent where there is none. */
  readonly rearLost?: Uint8Array;
  readonly frontLost?: Uint8Array;
  /** True where gear records stand on a grid of whole seconds, whatever its phase: a record may be up to 1 s older than it says. */
  readonly wholeSeconds: boolean;
}

/**
 * One ride, whatever its format: columns over time that share one index. NaN = no value at that moment.
 * `timeS` is strictly rising seconds since `startMs`, not written faster than about one record a second: each counts as a second's evidence.
 * A gap in `timeS` is a pause or lost records: nothing is known within.
 * Positions are never kept.
 */
export interface RideLog {
  readonly file: string;
  readonly format: 'fit' | 'tcx' | 'gpx' | 'csv';
  /** As the file says, lower case; null where it does not say. */
  readonly sport: string | null;
  /** The finer kind of ride, lower case, as the file says (`mountain`, `indoor_cycling`); absent or null where it does not. */
  readonly subSport?: string | null;
  /**
   * Unix milliseconds, UTC, of `timeS` 0. A log without a clock (CSV with `time_s` only) counts from 1970:
   * 0 plus its first `time_s`, so that times in a report read as the rider's own seconds.
   */
  readonly startMs: number;
  readonly timeS: Float64Array;
  readonly speedMps: Float64Array;
  readonly cadenceRpm: Float64Array;
  readonly powerW: Float64Array;
  readonly distanceM: Float64Array;
  readonly speedSource: SpeedSource;
  readonly gearRecords: GearRecords;
  /** Where the file says the clock was stopped; absent or empty where it says nothing. Gaps in `timeS` hold as well. */
  readonly pauses?: readonly Pause[];
  readonly warnings: readonly Warning[];
}

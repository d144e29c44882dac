import type { ParsedFit } from 'fit-file-parser';

/** The fields of decoded messages that a ride needs. fit-file-parser leaves out what is invalid. */
export interface FitMessage {
  timestamp?: Date;
  event?: unknown;
  event_type?: unknown;
  data?: number;
  front_gear_num?: number;
  front_gear?: number;
  rear_gear_num?: number;
  rear_gear?: number;
  position_lat?: number;
  position_long?: number;
  cadence?: number;
  cadence256?: number;
  fractional_cadence?: number;
  distance?: number;
  speed?: number;
  enhanced_speed?: number;
  power?: number;
  compressed_speed_distance?: (number | null)[];
  start_time?: Date;
  total_elapsed_time?: number;
  sport?: unknown;
  sub_sport?: unknown;
  device_index?: unknown;
  device_type?: unknown;
  source_type?: unknown;
  type?: unknown;
}

/** The lists of decoded messages that a ride needs. */
export interface FitMessages {
  readonly records?: FitMessage[];
  readonly events?: FitMessage[];
  readonly sessions?: FitMessage[];
  readonly sports?: FitMessage[];
  readonly device_infos?: FitMessage[];
  readonly file_ids?: FitMessage[];
}

/** The library's own types leave out some fields and narrow others more than its values are; this is their one crossing. */
export const fitMessages = (decoded: ParsedFit): FitMessages => decoded as unknown as FitMessages;

/** Unix milliseconds of a decoded time stamp; NaN where it has none. */
export const fitTimeMs = (time: Date | undefined): number => (time === undefined ? NaN : time.getTime());

/**
 * The tables, as kysely sees them. Times are Unix milliseconds, JSON is text, blobs are gzip or serialized columns.
 * The store keeps two kinds of things: what people gave (bikes, workshop marks, adjustments, rides, judgements; never lost) and what
 * was worked out from it (`ride_analysis`, `ride_part`, `bike_report`; may be thrown away at any time and made again).
 */
export interface Tables {
  bike: BikeTable;
  workshop_mark: WorkshopMarkTable;
  bike_report: BikeReportTable;
  adjustment: AdjustmentTable;
  upload: UploadTable;
  ride: RideTable;
  ride_analysis: RideAnalysisTable;
  ride_part: RidePartTable;
  judgement: JudgementTable;
  meta: MetaTable;
}

/** Bikes. */
export interface BikeTable {
  id: string;
  /** The bike file of the contract, JSON. */
  spec: string;
  source: 'given' | 'guessed';
  /** 1 for an invented bike that came with the program: rides of real bikes are never placed on it by themselves. */
  sample: 0 | 1;
  /** What was said when it was guessed, warnings as JSON. */
  notes: string;
  /** How likely a guessed bike is right, 0 to 1; null for a given one, and where nobody worked it out. */
  certainty: number | null;
  created_at: number;
  /** Rises when something changes that every ride's gear trace hangs on. */
  drivetrain_version: number;
  /** Rises with every change that the report hangs on: drivetrain, rides, adjustments, judgements. */
  revision: number;
}

/** Bikes that are set aside for the workshop, one row for each of these. */
export interface WorkshopMarkTable {
  bike_id: string;
  /** As the calendar has it, `2026-05-03`; null where it was not told. */
  day: string | null;
  note: string;
}

/** The report of each bike, one row a bike. */
export interface BikeReportTable {
  bike_id: string;
  /** The bike's revision that this was worked out from. */
  revision: number;
  engine_version: string;
  /** The report (`Report`) without the long lists of its rides, JSON. */
  report: string;
  /** State, trend and marks for the list of bikes, JSON. */
  summary: string;
  /** Tallies by load and by period, JSON. */
  detail: string;
  /** Why the last try to work the report out failed; null when it did not. */
  failure: string | null;
}

/** Adjustments, as the contract has them; `at_ms` is `at` in Unix milliseconds. */
export interface AdjustmentTable {
  id: string;
  bike_id: string;
  at: string;
  at_ms: number;
  parameter: string;
  amount: number | null;
  unit: string;
  note: string;
}

/** Uploads: rides that came together. */
export interface UploadTable {
  id: string;
  created_at: number;
  /** `auto`, `new` or `bike`. */
  placement: string;
}

/** Rides, from the moment their file is kept. */
export interface RideTable {
  id: string;
  /** Null until the ride is placed on a bike. */
  bike_id: string | null;
  upload_id: string | null;
  /** The file's name as the rider gave it: shown, never used as a path. */
  file: string;
  /** Of the bytes as they were sent: tells a file that is sent twice. */
  sha256: string;
  /** Of the bytes as they are kept, and their address in the raw store. */
  kept_sha256: string;
  bytes: number;
  kept_bytes: number;
  format: string;
  positions: 'none' | 'dropped' | 'kept';
  /** A moment of 1970 where the log has no clock. */
  start_ms: number;
  duration_s: number;
  /** Sizes that its gear records name, `RecordedTeeth` as JSON. */
  recorded_teeth: string;
  /** Warnings of the intake, JSON. */
  warnings: string;
  uploaded_at: number;
  status: 'queued' | 'done' | 'failed';
  error_code: string | null;
  error_message: string | null;
  /** Analyses begun since the last one that ended: a ride that keeps killing its server is given up. */
  attempts: number;
  /** What the present status was worked out with. */
  engine_version: string | null;
  drivetrain_version: number | null;
}

/** The analysis of each ride that has one, one row a ride. */
export interface RideAnalysisTable {
  ride_id: string;
  engine_version: string;
  drivetrain_version: number;
  /** Serialized analysis without its columns, for the bike's report. */
  events: Buffer;
  /** The ride's report (`RideReport`) as the engine made it, before judgements, JSON, gzip. */
  report: Buffer;
  /** Counts after judgements, JSON. */
  counts: string;
  evidence: string;
  /** Columns for the timeline, JSON, gzip. */
  columns: Buffer;
}

/** A ride whose records are all those of another; found when either is analysed, for rides of one bike. */
export interface RidePartTable {
  part_id: string;
  whole_id: string;
}

/** What riders said of events, at most one judgement an event. */
export interface JudgementTable {
  ride_id: string;
  event_key: string;
  /** `told`: the rider tells of an event that the log does not show. */
  verdict: 'confirmed' | 'rejected' | 'told';
  /** Where a chain that the rider told of went; null for all others. */
  side: 'past-largest' | 'past-smallest' | 'chainring' | 'unknown' | null;
  note: string;
  judged_at: number;
}

/** Facts about the store itself. */
export interface MetaTable {
  key: string;
  value: string;
}

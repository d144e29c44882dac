import type { z } from 'zod';
import type { Bike } from '../../src/drivetrain/bike.ts';
import type { Warning } from '../../src/errors/warning.ts';
import type { LikelyBike } from '../../src/gear-trace/belonging/fits-bike.ts';
import type { RecordedTeeth } from '../../src/gear-trace/commands/recorded-gears.ts';
import type { readFileShape } from '../shapes/upload-shapes.ts';
import type { StoredAnalysis } from '../store/analysis-store.ts';
import type { FoundParts } from '../store/part-store.ts';
import type { NewReport } from '../store/report-store.ts';
import type { RideFault } from '../store/work-store.ts';

/** What is asked of a worker, and what comes back: plain data that can cross to another thread. */
export interface Tasks {
  intake: { ask: IntakeTask; answer: IntakeAnswer };
  analyse: { ask: AnalyseTask; answer: AnalyseAnswer };
  compare: { ask: CompareTask; answer: CompareAnswer };
  conclude: { ask: ConcludeTask; answer: ConcludeAnswer | null };
  place: { ask: PlaceTask; answer: PlaceAnswer };
  guess: { ask: GuessTask; answer: GuessAnswer };
  wholeReport: { ask: WholeReportTask; answer: WholeReportAnswer };
  placeless: { ask: PlacelessTask; answer: PlacelessAnswer };
}
/** One of the kinds of tasks. */
export type TaskName = keyof Tasks;

/** A stage of the work and how long it took, for `--verbose`. Holds sizes and counts, never what was ridden. */
export interface Stage {
  readonly stage: string;
  readonly ms: number;
  readonly facts: Readonly<Record<string, number | string>>;
}

/** Reads a file that came in, takes its positions out unless they are kept on purpose, and writes it beside it, flushed. */
export interface IntakeTask {
  readonly path: string;
  /** Where the file to be kept is written. */
  readonly keptPath: string;
  /** The rider's name for the file, for messages only. */
  readonly file: string;
  readonly keepPositions: boolean;
}
/** What came of an `IntakeTask`. */
export type IntakeAnswer = { readonly fault: RideFault } | { readonly fault: null; readonly ride: IntakenRide };
/** A ride file that was read and written as it will be kept. `sha256` and `bytes` are of the file as it came. */
export interface IntakenRide {
  readonly sha256: string;
  readonly keptSha256: string;
  readonly bytes: number;
  readonly keptBytes: number;
  readonly format: string;
  readonly positions: 'none' | 'dropped' | 'kept';
  readonly startMs: number;
  readonly durationS: number;
  readonly recordedTeeth: RecordedTeeth;
  readonly warnings: readonly Warning[];
}

/** Analyses one kept ride on its bike. */
export interface AnalyseTask {
  readonly path: string;
  readonly file: string;
  readonly bike: Bike;
}
/** What came of an `AnalyseTask`. */
export type AnalyseAnswer =
  | { readonly fault: RideFault; readonly stages: readonly Stage[] }
  | { readonly fault: null; readonly analysis: StoredAnalysis; readonly stages: readonly Stage[] };

/** Compares the records of a ride with those of others, to tell cut copies. */
export interface CompareTask {
  readonly ride: KeptRide;
  readonly others: readonly (KeptRide & { readonly id: string })[];
}
/** What came of a `CompareTask`. */
export type CompareAnswer = FoundParts;

/** Works out a bike's report from the analyses in the database. */
export interface ConcludeTask {
  readonly database: string;
  readonly bikeId: string;
}
/** What came of a `ConcludeTask`. */
export interface ConcludeAnswer extends NewReport {
  readonly stages: readonly Stage[];
}

/** The kept report with every event, as JSON bytes; null where there is none. */
export interface WholeReportTask extends ConcludeTask {}
/** What came of a `WholeReportTask`. */
export type WholeReportAnswer = Uint8Array | null;

/** Finds the bike of some rides that came together: one that is there, or a new one by guess. */
export interface PlaceTask {
  readonly rides: readonly KeptRide[];
  /** Bikes to choose from; none to make a new one in any case. */
  readonly bikes: readonly CandidateBike[];
}
/** A ride file in the raw store, with the rider's name for it. */
export interface KeptRide {
  readonly path: string;
  readonly file: string;
}
/** A bike that is there and that rides may belong to. */
export interface CandidateBike extends LikelyBike {
  readonly id: string;
  /** A bike made for rides that are as well of several others: nobody has said yet whose they are. */
  readonly unclear: boolean;
  /** Of a guessed bike: whether its rides do not show how many rings it has. */
  readonly ringsUnclear: boolean;
  /** Of a guessed bike: some of its rides, from which it is guessed anew together with those that join them. */
  readonly rides: readonly KeptRide[];
}
/** `bikeId` null: a new bike. `guess`: the new one, or a better guess of the one that was there, or null for no change. */
export type PlaceAnswer =
  | { readonly fault: RideFault }
  | { readonly fault: null; readonly bikeId: string; readonly guess: GuessedBike | null }
  | { readonly fault: null; readonly bikeId: null; readonly guess: GuessedBike };
/** A bike guessed from rides, with what is to be said about the guess. */
export interface GuessedBike {
  readonly bike: Bike;
  readonly notes: readonly Warning[];
  /** How likely it is right, 0 to 1; null where it was not worked out from the rides but is what alike bikes have. */
  readonly certainty: number | null;
}

/** Guesses a drivetrain from files of which nothing is stored. */
export interface GuessTask {
  readonly files: readonly { readonly path: string; readonly file: string }[];
}
/** What came of a `GuessTask`; `bike` null where no file shows any gears. `certainty` 0 to 1. */
export interface GuessAnswer {
  readonly bike: Bike | null;
  readonly certainty: number;
  readonly madeUpCogs: readonly number[];
  readonly ridesApart: boolean;
  readonly notes: readonly string[];
  readonly withCadence: boolean;
  readonly files: readonly z.infer<typeof readFileShape>[];
}

/** Writes a copy of a kept ride without positions, for an archive. */
export interface PlacelessTask {
  readonly path: string;
  readonly file: string;
}
/** The file without positions. */
export type PlacelessAnswer = Uint8Array;

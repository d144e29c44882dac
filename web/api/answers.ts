import type { z } from 'zod';
import type {
  bikeInShortShape,
  bikeSummaryShape,
  sheetShape,
  stateShape,
  takenAdjustmentsShape,
  versionedAdjustmentShape,
} from '../../server/shapes/bike-shapes.ts';
import type { errorShape } from '../../server/shapes/error-shape.ts';
import type { healthShape } from '../../server/shapes/health-shape.ts';
import type { mergedShape } from '../../server/shapes/merged-shape.ts';
import type {
  judgedRideReportShape,
  rideColumnsShape,
  rideDetailShape,
  rideSummaryShape,
  takenRideShape,
} from '../../server/shapes/ride-shapes.ts';
import type {
  drivetrainGuessShape,
  uploadAnswerShape,
  uploadProgressShape,
} from '../../server/shapes/upload-shapes.ts';
import type { Report } from '../../src/report/report-schema.ts';

// The shapes are the server's own; only their types are taken.
export type { Adjustment } from '../../src/adjustments/adjustment.ts';
export type { Bike } from '../../src/drivetrain/bike.ts';
export type { DiagnosisReport as Diagnosis } from '../../src/report/diagnosis-report-schema.ts';
export type { CogReport } from '../../src/report/report-schema.ts';
export type { RideReport } from '../../src/report/ride-report-schema.ts';
/** An adjustment, and what the rides before and after it show. */
export type AdjustmentReport = Report['adjustments'][number];

/** How a bike stands: in order, worth an eye, in need of service, or too little known. */
export type BikeState = z.infer<typeof stateShape>;
/** The state of a bike in a word. */
export type StateWord = BikeState['word'];
/** A bike as it stands in the list. */
export type BikeSummary = z.infer<typeof bikeSummaryShape>;
/** A bike with its verdict, its cogs and its rides in short. */
export type BikeDetail = z.infer<typeof bikeInShortShape>;
/** A ride of a bike's report. */
export type RideInShort = NonNullable<BikeDetail['report']>['rides'][number];
/** Share of shifts in trouble in one ride of a bike. */
export type TrendPoint = BikeSummary['trend'][number];
/** Range of pedal torque that shifts are counted by. */
export type Load = BikeDetail['perLoad'][number]['load'];
/** An adjustment as the store keeps it, with its key. */
export type LoggedAdjustment = z.infer<typeof versionedAdjustmentShape>;
/** What an adjustments file brought. */
export type TakenAdjustments = z.infer<typeof takenAdjustmentsShape>;
/** What a bike's service sheet shows. */
export type SheetData = z.infer<typeof sheetShape>;

/** A ride as it stands in a bike's list. */
export type RideSummary = z.infer<typeof rideSummaryShape>;
/** A ride with its report and what its rider said of the events. */
export type RideDetail = z.infer<typeof rideDetailShape>;
/** A ride's report, each event with the key that it is called by. */
export type KeyedRideReport = z.infer<typeof judgedRideReportShape>;
/** A ride's records and trace, column by column. */
export type RideColumns = z.infer<typeof rideColumnsShape>;
/** What a rider says of an event: it happened, it did not, or it did though the log does not show it. */
export type Verdict = RideDetail['judgements'][number]['verdict'];

/** One file of an upload: waiting for its turn, a copy of a ride that is stored, or refused with the reason. */
export type TakenRide = z.infer<typeof takenRideShape>;

/** What the server says of files that were sent. */
export type UploadAnswer = z.infer<typeof uploadAnswerShape>;
/** One step of an upload, as the server reports it. */
export type UploadProgress = z.infer<typeof uploadProgressShape>;
/** A drivetrain read off rides that are not stored. */
export type DrivetrainGuess = z.infer<typeof drivetrainGuessShape>;
/** One file that a drivetrain was read off. */
export type ReadFile = DrivetrainGuess['files'][number];

/** Versions of the program and its engine. */
export type Health = z.infer<typeof healthShape>;
/** What an archive brought. */
export type Merged = z.infer<typeof mergedShape>;
/** What the server says of a request that it refuses. */
export type Refusal = z.infer<typeof errorShape>['error'];

import type { z } from 'zod';
import type {
  adjustmentLogShape,
  bikeDetailShape,
  bikeSummaryShape,
  sheetShape,
  stateShape,
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
export type { CogReport, DiagnosisReport as Diagnosis, RideReport } from '../../src/report/report-schema.ts';
export type AdjustmentReport = Report['adjustments'][number];

export type BikeState = z.infer<typeof stateShape>;
export type StateWord = BikeState['word'];
export type BikeSummary = z.infer<typeof bikeSummaryShape>;
export type BikeDetail = z.infer<typeof bikeDetailShape>;
export type TrendPoint = BikeSummary['trend'][number];
export type Load = BikeDetail['perLoad'][number]['load'];
export type LoggedAdjustment = z.infer<typeof adjustmentLogShape>;
export type SheetData = z.infer<typeof sheetShape>;

export type RideSummary = z.infer<typeof rideSummaryShape>;
export type RideDetail = z.infer<typeof rideDetailShape>;
export type KeyedRideReport = z.infer<typeof judgedRideReportShape>;
export type RideColumns = z.infer<typeof rideColumnsShape>;
export type Verdict = RideDetail['judgements'][number]['verdict'];

export type TakenRide = z.infer<typeof takenRideShape>;

export type UploadAnswer = z.infer<typeof uploadAnswerShape>;
/** One step of an upload, as the server reports it. */
export type UploadProgress = z.infer<typeof uploadProgressShape>;
/** A drivetrain read off rides that are not stored. */
export type DrivetrainGuess = z.infer<typeof drivetrainGuessShape>;
export type ReadFile = DrivetrainGuess['files'][number];

export type Health = z.infer<typeof healthShape>;
/** What an archive brought. */
export type Merged = z.infer<typeof mergedShape>;
/** What the server says of a request that it refuses. */
export type Refusal = z.infer<typeof errorShape>['error'];

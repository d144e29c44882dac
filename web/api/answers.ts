import type { z } from 'zod';
import type {
  adjustmentLogShape,
  bikeDetailShape,
  bikeSummaryShape,
  sheetShape,
  stateShape,
} from '../../server/shapes/bike-shapes.ts';
import type {
  judgedRideReportShape,
  rideColumnsShape,
  rideDetailShape,
  rideSummaryShape,
  takenRideShape,
} from '../../server/shapes/ride-shapes.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
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

export interface UploadAnswer {
  readonly uploadId: string;
  readonly files: readonly TakenRide[];
}

/** One step of an upload, as the server reports it. */
export interface UploadProgress {
  readonly file: string;
  readonly rideId: string;
  readonly bikeId: string | null;
  readonly status: RideSummary['status'];
  readonly done: number;
  readonly total: number;
  readonly message?: string;
}

/** A drivetrain read off rides that are not stored. */
export interface DrivetrainGuess {
  readonly bike: Bike;
  readonly certainty: number;
  readonly notes: readonly string[];
  readonly files: readonly {
    readonly name: string;
    readonly understood: readonly string[];
    readonly notUnderstood: readonly string[];
  }[];
}

import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import type { Bike } from '../../drivetrain/bike.ts';
import type { Cause } from '../causes.ts';
import type { DiagnosisRide, ShiftsWellSince, TurnEstimate } from '../diagnosis.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import type { Particle } from '../posterior/particles.ts';

/** What `bikeNow` goes by. */
export interface NowFacts {
  readonly bike: Pick<Bike, 'cassette'>;
  /** All rides of the bike. */
  readonly rides: readonly DiagnosisRide[];
  /** In order of time. */
  readonly adjustments: readonly Adjustment[];
  readonly evidence: Pick<RidingEvidence, 'groups' | 'looks'>;
  readonly particles: readonly Particle[];
  readonly cause: Cause;
  readonly probability: number;
  /** Turns that would set the indexing right, with their sign. */
  readonly clicks: TurnEstimate;
  /** Shifts that could be weighed, over all rides. */
  readonly judgedShifts: number;
  /** What each adjustment that stands did, in order of time. */
  readonly comparisons: readonly AdjustmentComparison[];
  /** Whether the newest rides shift well, by whatever was done. */
  readonly wellSince: ShiftsWellSince | null;
}

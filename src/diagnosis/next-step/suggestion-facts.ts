import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import type { Look } from '../../adjustments/looks.ts';
import type { Cause } from '../causes.ts';
import type {
  CheckRide,
  Onset,
  RiderPart,
  ShiftsWellSince,
  TurnEstimate,
  Undecided,
  UnexplainedTrouble,
} from '../diagnosis.ts';
import type { BikeNow } from '../now/bike-now.ts';
import type { OvertakenLook } from '../now/overtaken-looks.ts';
import type { Observed } from '../observed.ts';
import type { PlainTrouble } from '../unexplained/plain-trouble.ts';

/** A cause that is a fault. */
export type Fault = Exclude<Cause, 'no-fault'>;

/** What the next step hangs on. */
export interface SuggestionFacts extends SeenOfBike, LikelyOfBike, DoneToBike {
  readonly electronic: boolean;
  /** A ride that would tell more, where one would. */
  readonly checkRide: CheckRide;
}

/** What the rides showed. */
interface SeenOfBike {
  readonly seen: Observed;
  /** Chains lost on all rides of the bike, also those that were not weighed, but for those that came off elsewhere before the chain was looked over. */
  readonly drops: Observed['drops'];
  /** Judged shifts of rides without a date that could not be weighed beside adjustments. */
  readonly undatedShifts: number;
  /** How many rides are left out as another bike's, where that leaves none that counts; else 0. */
  readonly ridesLeftOut: number;
  /** Shifts that fail, all others hardly or not, so plainly that something is at fault; else null. */
  readonly failsPlainly: PlainTrouble | null;
}

/** What that makes likely. */
interface LikelyOfBike {
  readonly ranked: readonly { readonly cause: Cause; readonly probability: number }[];
  readonly undecided: Undecided | null;
  readonly unexplained: UnexplainedTrouble | null;
  readonly onset: Onset;
  readonly rider: RiderPart;
  readonly clicks: TurnEstimate;
  /** The same for one cause's bikes alone. */
  readonly clicksFor: (cause: Cause) => TurnEstimate;
}

/** What was done to the bike or looked at, and what became of it. */
interface DoneToBike {
  /** What each adjustment did, in order of time. */
  readonly comparisons: readonly AdjustmentComparison[];
  readonly now: BikeNow;
  /** Null unless the newest rides show that what was wrong is wrong no longer, and no logged adjustment accounts for it. */
  readonly wellSince: ShiftsWellSince | null;
  /** Looks that found a part right and need not be made again, in order of time. */
  readonly foundRight: readonly Look[];
  /** The same, and parts that were aligned or replaced: these need no look either. */
  readonly seenTo: readonly Look[];
  /** Parts that were seen to and are looked at again, since a chain was lost after it. */
  readonly overtaken: readonly OvertakenLook[];
}

import type { Adjustment } from '../adjustments/adjustment.ts';
import type { AdjustmentComparison } from '../adjustments/compare-adjustments.ts';
import type { CassetteEnd, EndCogCount } from '../adjustments/end-cog-count.ts';
import type { Bike } from '../drivetrain/bike.ts';
import type { EvidenceKind } from '../gear-trace/gear-trace.ts';
import type { Direction, RideEvents } from '../shifts/ride-events.ts';
import type { Cause } from './causes.ts';
import type { CautionKind } from './next-step/caution.ts';
import type { SettingNow } from './now/setting-now.ts';

/** What one ride brings to the diagnosis. `startMs`: Unix milliseconds, see `hasClock`. */
export interface DiagnosisRide {
  readonly startMs: number;
  readonly durationS: number;
  readonly evidence: EvidenceKind;
  readonly events: RideEvents;
}

/** Everything the diagnosis looks at. Rides and adjustments may come in any order. */
export interface DiagnosisInput {
  readonly bike: Bike;
  readonly rides: readonly DiagnosisRide[];
  readonly adjustments: readonly Adjustment[];
  /** False where the rides showed no drivetrain: its cogs are then named nowhere. True if left out. */
  readonly cogsKnown?: boolean;
  /** How many rides were left out of `rides` as another bike's. None if left out. */
  readonly ridesLeftOut?: number;
  /** Cassette indices of cogs that nobody knows to be there: nobody is sent onto them. None if left out. */
  readonly unseenCogs?: readonly number[];
}

/** One cause, how likely it is, and the sentences with numbers that speak for or against it. */
export interface CauseVerdict {
  readonly cause: Cause;
  readonly probability: number;
  readonly evidence: readonly string[];
}

/** A size with its 95 % interval. */
export interface Estimate {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

/** Lateral error of the guide pulley on one cog (named by its teeth), mm, inboard positive, as of the last ride. */
export interface CogError extends Estimate {
  readonly teeth: number;
}

/** How far the barrel adjuster (or the electronic offset) is off: turn by `mean` to set it right, positive = inboard. */
export interface TurnEstimate extends Estimate {
  readonly parameter: 'cable-tension' | 'index-offset';
  readonly unit: 'clicks' | 'steps';
}

/** When the trouble began. `at` is the ISO time of the change for `sudden`, the first ride for the others, null if unknown. */
export interface Onset {
  readonly kind: 'sudden' | 'gradual' | 'steady' | 'unknown';
  readonly at: string | null;
  /** Start of the ride before, where a sudden fault first shows at the beginning of a ride: it began between the two. Else null. */
  readonly rideBeforeAt: string | null;
  readonly probability: number;
}

/** The rider's own part: trouble that gathers at high torque. Rates are null where there is no power to tell. */
export interface RiderPart {
  /** Probability that load, not a part, makes most of the trouble. */
  readonly probability: number;
  readonly troubleRateLowTorque: number | null;
  readonly troubleRateHighTorque: number | null;
  /** True where hardly any shift under light pedalling went wrong, for sure, and many under hard: then easing off comes before any part. */
  readonly goneWithSoftLegs: boolean;
  /** Empty where no shift was judged, or load made no plain difference. */
  readonly sentence: string;
}

/** What would tell the two likeliest causes apart. */
export interface Separation {
  readonly between: readonly [Cause, Cause];
  /** True where skips under load tell more than any shift. */
  readonly bySkips: boolean;
  readonly sentence: string;
}

/** The top cause changes when an assumed constant moves within its plausible range. */
export interface Undecided {
  readonly between: readonly [Cause, Cause];
  /** The assumptions that turn the verdict, in words, the strongest first. */
  readonly becauseOf: readonly string[];
  readonly sentence: string;
}

/** What the causes were weighed against: less than all rides where some tell nothing, cannot be set in order or are too old. */
interface WeighedRides {
  readonly rides: number;
  readonly judgedShifts: number;
  /** Shifts of which only the rider's answer is known. */
  readonly weakShifts: number;
  /** Ghost shifts, chain drops and skips together. */
  readonly events: number;
  readonly pedallingHours: number;
}

/** Since when a bike shifts well that did not before: judged shifts of the rides since, and how many of them went wrong. */
export interface ShiftsWellSince {
  /** ISO time at which the first of these rides began. */
  readonly at: string;
  readonly shifts: number;
  readonly trouble: number;
  /** Those of them on the cogs and in the direction where the likeliest fault shows; all where it shows everywhere. */
  readonly there: TroubleSince;
  /** Whether a fault was as good as sure before: only then was there something to put right. */
  readonly putRight: boolean;
  /** Whether an adjustment is logged between the rides before and these. */
  readonly adjusted: boolean;
  /** Time of the last of those adjustments that goes against the likeliest fault by its part and sign; null where none does. */
  readonly entryAt: string | null;
}

/** Judged shifts in one direction, and how many of them went wrong. */
interface TroubleSince {
  readonly shifts: number;
  readonly trouble: number;
}

/** Shifts onto a cog (named by its teeth; null: onto the others together) in a direction (null: from either side) that go wrong more often than the likeliest cause foretells. */
interface UnexplainedShifts {
  readonly teeth: number | null;
  readonly direction: Direction | null;
  readonly shifts: number;
  readonly trouble: number;
  /** How many of them were to go wrong by that cause. */
  readonly foretold: number;
}

/** What stands beside the verdict: trouble that the likeliest cause leaves unexplained, while no other in question explains all. */
export interface UnexplainedTrouble {
  readonly places: readonly UnexplainedShifts[];
  /** Which shifts these are, within a sentence: `shifts onto the 17`. */
  readonly where: string;
  readonly sentence: string;
  /** What to look at. */
  readonly look: string;
}

/** What is wrong with the bike as it is now. */
export interface NowVerdict {
  /** The likeliest cause as long as it is there, the fault that an adjustment made of it, or `no-fault` once it is cured. */
  readonly fault: Cause;
  readonly setting: SettingNow;
  /** Where `overdone`: whether the last adjustment did it, or an earlier one that is still too much. */
  readonly byLastAdjustment: boolean;
  /** Probability that the setting stands past the mark; where `overdone`, on the side of `fault`. */
  readonly pastTheMark: number;
  /** Ends past which a chain was lost while nothing since shows that it stays on. */
  readonly keepOff: readonly CassetteEnd[];
  /** Ends past which a chain was lost and of which limit and hanger were both looked at or set since; a screw that was turned out does not count. */
  readonly lookedOver: readonly CassetteEnd[];
  /** Whether what the likeliest cause would have wrong was found right, and that look stands and leads on to the next thing. */
  readonly foundRight: boolean;
  /** Shifts onto the end cog whose limit is the cause, before that limit was last seen to and since; null for any other cause, and where it was not touched. */
  readonly trial: { readonly end: CassetteEnd; readonly before: EndCogCount; readonly since: EndCogCount } | null;
  /** What was seen since the last adjustment, or on all rides where nothing was adjusted (`at` is then null). */
  readonly since: {
    readonly at: string | null;
    readonly toLarger: TroubleSince;
    readonly toSmaller: TroubleSince;
    readonly ghostShifts: number;
    readonly skips: number;
    readonly chainDrops: { readonly pastLargest: number; readonly pastSmallest: number; readonly elsewhere: number };
  };
}

/** What the rides since the last adjustment show by themselves, where the fault that all rides name is most likely gone. */
interface AnotherSince {
  /** Every cause, likeliest first, weighed by these rides alone; sums to 1. */
  readonly causes: readonly CauseVerdict[];
  readonly weighed: WeighedRides;
  /** `steady` never: what is there from the first of these rides may have been there before. */
  readonly onset: Onset;
  readonly undecided: Undecided | null;
}

/** A fault that came after the first one, weighed by the rides from `after` on (ISO time of the work before it) by themselves. */
interface LaterCured extends AnotherSince {
  readonly after: string;
}

/** Shifts to ride on purpose: `count` times from one cog to the next (cogs named by their teeth). */
export interface CheckRideBlock {
  readonly count: number;
  readonly fromTeeth: number;
  readonly toTeeth: number;
  readonly direction: Direction;
  readonly load: 'soft' | 'firm';
}

/** A short plan of shifts that would best separate the likeliest causes. `expectedBits`: information gained on the cause. */
export interface CheckRide {
  readonly blocks: readonly CheckRideBlock[];
  readonly sentences: readonly string[];
  readonly expectedBits: number;
  /** Information expected from the same number of ordinary shifts. */
  readonly ordinaryBits: number;
}

/** The next step. Always filled; it names no part where there is no fault or too little evidence (`parameter` is `none`). */
export interface Suggestion {
  /** False where the evidence names no cause. A cause may be named that has nothing to turn. */
  readonly namesCause: boolean;
  /** True where a chain came off: the cautions say what to look over before riding on, whatever is turned. */
  readonly inspectFirst: boolean;
  /** What is left to the rider where everything is left as it is: nothing but to record on, or a few shifts; absent where there is something to do. */
  readonly asks?: 'nothing' | 'shifts';
  readonly parameter: string;
  /** What to do, in order. */
  readonly steps: readonly string[];
  /** The same in one. */
  readonly action: string;
  /** The first of `steps` without why, for a list that has no room for more; absent where it is told whole. */
  readonly inShort?: string;
  readonly start: string;
  readonly verify: string;
  readonly cautions: readonly string[];
  /** What each of these is of, in their order. */
  readonly cautionKinds: readonly CautionKind[];
  /** The part that is looked at first, where nothing is turned by the step itself or another part is turned after it; else absent. */
  readonly looksFirst?: string;
  /** What the first of `steps` is about, where that is other work than the step by itself (`none`: no part); else absent. */
  readonly firstAbout?: string;
  /** Which way it is turned, with the sign of the table of adjustments; null where nothing is to be turned, or either way may be right. */
  readonly sense?: 1 | -1 | null;
}

/** The verdict, in the shape the report prints it. `causes` holds every cause, likeliest first, and sums to 1. */
export interface Diagnosis {
  readonly causes: readonly CauseVerdict[];
  readonly weighed: WeighedRides;
  readonly lateralOffsetMm: Estimate;
  readonly lateralErrorMm: readonly CogError[];
  readonly clicks: TurnEstimate;
  readonly onset: Onset;
  readonly riderPart: RiderPart;
  readonly separates: Separation | null;
  readonly undecided: Undecided | null;
  readonly checkRide: CheckRide;
  /** What is left unexplained: a second fault, or something that is no cause's doing. Null where nothing is. The causes are weighed as the only fault. */
  readonly unexplained: UnexplainedTrouble | null;
  /** The one cog (teeth) onto which shifts plainly fail more often than onto all others, as on no bike in order: something is at fault there, whatever it is; else null. */
  readonly failsOnto: number | null;
  /** What is wrong now: all that is advised follows from it. The causes say what was mis-set. */
  readonly now: NowVerdict;
  /** Probability that the likeliest fault is still there as it was named after the last adjustment; 1 where nothing was adjusted or judged since: then it says nothing. */
  readonly stillThere: number;
  /** Whether a low limit that is named may be a bent hanger, which nobody has looked at since the chain was lost past the largest cog. */
  readonly limitOrHanger: boolean;
  /**
   * Set where that fault is most likely gone and the rides since the last adjustment name another by themselves (`now.setting` is `another`): then `causes`, `weighed`, `onset`,
   * `undecided` and `stillThere` are of what was wrong at first, and all that is advised, with the errors as the bike stands, of this.
   */
  readonly anotherSince: AnotherSince | null;
  /**
   * Set where the first fault was gone before the last work, another came after it, and the last work seems to have cured that one: what was cured last. Then `causes`, `weighed`,
   * `onset`, `undecided` and `stillThere` are of the first.
   */
  readonly laterCured: LaterCured | null;
  /** ISO time up to which rides were weighed for what was wrong at first, where those since show another fault; null where all rides were. */
  readonly firstUntil: string | null;
  /** Whether the last adjustment cured it: it is most likely there no longer, and the rides since do not fail. */
  readonly cured: boolean;
  /** Set where the newest rides shift well though no logged adjustment accounts for it; null otherwise. */
  readonly shiftsWellSince: ShiftsWellSince | null;
  /** Whether each adjustment helped, over all rides: what its sentences among the evidence are made from. */
  readonly comparisons: readonly AdjustmentComparison[];
  /** Notes on what the data cannot tell, for example two adjustments with no ride between them. */
  readonly notes: readonly string[];
  /** Entries that went the wrong way for a fault that the next step is about, with that fault. */
  readonly wrongWays: readonly { readonly at: string; readonly parameter: string; readonly fault: Cause }[];
  /** Entries that helped although they went towards a fault that is there, with that fault: their part, amount or sign may be wrong. */
  readonly helpedAgainst: Diagnosis['wrongWays'];
  readonly suggestion: Suggestion;
}

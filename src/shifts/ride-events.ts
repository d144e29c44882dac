import type { WeighedSign } from './drops/weigh-candidate.ts';

/** `to-larger` = towards the spokes (easier), `to-smaller` = towards the frame (harder). */
export type Direction = 'to-larger' | 'to-smaller';

/** Outcomes as the contract defines them. */
export type Outcome = 'clean' | 'late' | 'missed' | 'overshot' | 'unjudged';

/** Side on which a dropped chain left. */
export type DropSide = 'past-largest' | 'past-smallest' | 'chainring' | 'unknown';

/**
 * Why a shift was not judged: too little pedalling before the next one; no cadence in the ride; a speed that shows no gears (missing, not
 * ridden, too rough); hardly a record of the drive within its time; a speed that drifted, or sensors that rested on no cog; records that name two cogs by one tooth count; the rider said that it did not go as it
 * was judged, and nobody knows how else.
 */
export type UnjudgedReason =
  | 'no-pedalling'
  | 'no-cadence'
  | 'no-drive-seen'
  | 'not-seen'
  | 'astray'
  | 'two-cogs-one-count'
  | 'rejected';

/** Probability of each outcome of a shift given the ride; sums to 1. All 0 where nothing at all is known. */
export interface OutcomeProbability {
  readonly clean: number;
  readonly late: number;
  readonly missed: number;
  readonly overshot: number;
}

/** One commanded change of cog. Cogs are indices into the cassette, 0 = smallest. Times are seconds since the ride's start. */
export interface ShiftEvent {
  readonly timeS: number;
  /** Time of the last command of the burst: the turns of the cranks are counted from it. */
  readonly lastTimeS: number;
  readonly fromCog: number;
  readonly toCog: number;
  readonly direction: Direction;
  /**
   * Cogs the chain had to cross: more than from `fromCog` where the cranks hardly turned since the shifts before; 0 where it lay on
   * the commanded cog already: a missed shift was taken back, or the command was written down late.
   */
  readonly cogsToCross: number;
  readonly outcome: Outcome;
  /** Null for a judged shift. */
  readonly unjudgedBecause: UnjudgedReason | null;
  /** Crank revolutions pedalled from the command to the commanded cog; null where it never arrived or was not judged. */
  readonly crankRevs: number | null;
  /** Probability that `outcome` is right. */
  readonly confidence: number;
  readonly probability: OutcomeProbability;
  /** What the outcome was expected to be before the records about this shift were looked at. */
  readonly expected: OutcomeProbability;
  /** Mean crank torque over the seconds of the shift, Nm; NaN without power or cadence. */
  readonly torqueNm: number;
  /** Mean cadence over the same seconds; NaN without cadence. */
  readonly cadenceRpm: number;
  /** True where only the rider's reaction tells of it (the whole ride shows no gears): weak, and not judged. */
  readonly weak: boolean;
}

/** The chain changed cog with no command in the 5 s before. */
export interface GhostShiftEvent {
  readonly timeS: number;
  readonly fromCog: number;
  readonly toCog: number;
  readonly heldS: number;
  /** True where it went at last towards a cog that it had missed; absent, as false, in events that were kept before it was told. */
  readonly towardsCommand?: boolean;
  readonly confidence: number;
  readonly torqueNm: number;
}

/** Drive was lost. `afterShiftTo` is the cog of the last command shortly before (see `dropSide`), null where there was none. */
export interface ChainDropEvent {
  readonly timeS: number;
  readonly side: DropSide;
  readonly afterShiftTo: number | null;
  readonly confidence: number;
  /** What was measured, with what each sign adds to the log odds of `confidence`; absent in events that were kept before there were any. */
  readonly signs?: readonly WeighedSign[];
  /** True where the rider told of it: the side is theirs then, and sure where they knew it. */
  readonly toldByRider?: true;
}

/** The chain slipped over teeth under load, cog unchanged. */
export interface SkipEvent {
  readonly timeS: number;
  readonly cog: number;
  readonly confidence: number;
  /** How far the legs leapt ahead of the wheel, log share; absent in events that were kept before it was told. */
  readonly leap?: number;
  readonly torqueNm: number;
  /** True where the rider told of it. */
  readonly toldByRider?: true;
}

/** An end of the cassette, by its cog. */
export type EndCog = 'largest' | 'smallest';

/** How many shifts were asked for, and after how many of them the bike halted at once. */
export interface HaltCount {
  readonly shifts: number;
  readonly halts: number;
}

/**
 * Shifts asked for while the legs drove the bike, by whether the rider halted at once. One such halt may be meant and tells of no lost chain;
 * how often they follow the shifts onto an end cog, over all of a bike's rides, tells of its limit.
 */
export interface PromptHalts {
  /** Each shift onto an end cog. `haltLogOdds`: what else was measured of the halt says of a lost chain, log odds; null where none followed. */
  readonly ontoEnd: readonly {
    readonly timeS: number;
    readonly end: EndCog;
    readonly haltLogOdds: number | null;
  }[];
  /** The shifts onto other cogs, by the end that they went towards. */
  readonly elsewhere: Readonly<Record<EndCog, HaltCount>>;
}

/** Everything found in one ride, with the exposure that rates need. */
export interface RideEvents {
  readonly shifts: readonly ShiftEvent[];
  readonly ghostShifts: readonly GhostShiftEvent[];
  readonly chainDrops: readonly ChainDropEvent[];
  readonly skips: readonly SkipEvent[];
  /** Seconds pedalled (over 30 rpm) on each cog of the cassette, index 0 = smallest. */
  readonly pedallingSByCog: Float64Array;
  /** The part of them in which an unasked shift could be told, since a commanded cog was known; absent where none ever was, and in events that were kept before it was told. */
  readonly watchedSByCog?: Float64Array;
  /** Absent where no cog is commanded, and in events that were kept before it was told. */
  readonly promptHalts?: PromptHalts;
}

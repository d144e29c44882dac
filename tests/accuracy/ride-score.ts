/** How often something was found, missed and reported wrongly. */
export interface Detection {
  readonly found: number;
  readonly overlooked: number;
  readonly wrong: number;
}

/** A share as its two counts. */
interface Share {
  readonly right: number;
  readonly of: number;
}

/** Settled seconds of one kind of ride; `unnamed` are those without a cog. */
export interface TraceSeconds {
  readonly right: number;
  readonly rightWithRing: number;
  readonly unnamed: number;
  readonly of: number;
}

/** Ten bins of `confidence`, [0, 0.1) first: how many events, the sum of their confidences, how many were right. */
export interface ConfidenceBins {
  readonly count: readonly number[];
  readonly confidenceSum: readonly number[];
  readonly right: readonly number[];
}

/** Speed source and what was recorded of the gears. */
export const traceGroups = [
  'wheel, gear records',
  'wheel, rear records only',
  'wheel, no gear records',
  'satellite, gear records',
  'satellite, rear records only',
  'satellite, no gear records',
] as const;
export type TraceGroup = (typeof traceGroups)[number];

export const judgedOutcomes = ['clean', 'late', 'missed', 'overshot'] as const;
type JudgedOutcome = (typeof judgedOutcomes)[number];

/** Everything counted in one ride or in many: counts only, so that scores add up. */
export interface RideScore {
  readonly hours: number;
  readonly trace: Record<TraceGroup, TraceSeconds>;
  readonly missed: Detection;
  readonly lateOrMissed: Detection;
  /** The same with borderline shifts as they truly were: see `BORDERLINE_REVS`. */
  readonly missedStrictly: Detection;
  readonly lateOrMissedStrictly: Detection;
  /** The same for shifts that stand alone: see `ALONE_S`. */
  readonly missedAlone: Detection;
  readonly lateOrMissedAlone: Detection;
  readonly overshot: Detection;
  readonly ghostShifts: Detection;
  readonly chainDrops: Detection;
  readonly chainDropsWithoutRecords: Detection;
  readonly skips: Detection;
  readonly dropSides: Share;
  readonly dropSidesWithoutRecords: Share;
  readonly shifts: {
    readonly truly: number;
    readonly reported: number;
    readonly paired: number;
    readonly unjudgedTruly: number;
    readonly unjudgedReported: number;
    /** Shifts with an outcome that were left unjudged, and those of them that were late or missed. */
    readonly leftUnjudged: number;
    readonly leftInTrouble: number;
    readonly judged: number;
    readonly outcomeRight: number;
    readonly borderline: number;
    readonly troubleReported: number;
  };
  /** Judged shifts by true and judged outcome, borderline ones as judged: `outcomes.late.clean` were late and called clean. */
  readonly outcomes: Record<JudgedOutcome, Record<JudgedOutcome, number>>;
  /** Reported ghost shifts that were a shift's own late arrival: counted neither way. */
  readonly ghostsThatWereLateArrivals: number;
  /** True ghost shifts that left no mark, found or not: counted neither way. */
  readonly ghostsWithoutMark: number;
  readonly confidence: { readonly shifts: ConfidenceBins; readonly events: ConfidenceBins };
}

const noBins = (): ConfidenceBins => ({
  count: Array(10).fill(0),
  confidenceSum: Array(10).fill(0),
  right: Array(10).fill(0),
});
const nothing: Detection = { found: 0, overlooked: 0, wrong: 0 };
const noSeconds: TraceSeconds = { right: 0, rightWithRing: 0, unnamed: 0, of: 0 };

export const noOutcomes = (): Record<JudgedOutcome, Record<JudgedOutcome, number>> => {
  const none = { clean: 0, late: 0, missed: 0, overshot: 0 };
  return { clean: { ...none }, late: { ...none }, missed: { ...none }, overshot: { ...none } };
};

/** The score of no ride. */
export function noScore(): RideScore {
  return {
    hours: 0,
    trace: Object.fromEntries(traceGroups.map((group) => [group, noSeconds])) as RideScore['trace'],
    missed: nothing,
    lateOrMissed: nothing,
    missedStrictly: nothing,
    lateOrMissedStrictly: nothing,
    missedAlone: nothing,
    lateOrMissedAlone: nothing,
    overshot: nothing,
    ghostShifts: nothing,
    chainDrops: nothing,
    chainDropsWithoutRecords: nothing,
    skips: nothing,
    dropSides: { right: 0, of: 0 },
    dropSidesWithoutRecords: { right: 0, of: 0 },
    shifts: {
      truly: 0,
      reported: 0,
      paired: 0,
      unjudgedTruly: 0,
      unjudgedReported: 0,
      leftUnjudged: 0,
      leftInTrouble: 0,
      judged: 0,
      outcomeRight: 0,
      borderline: 0,
      troubleReported: 0,
    },
    outcomes: noOutcomes(),
    ghostsThatWereLateArrivals: 0,
    ghostsWithoutMark: 0,
    confidence: { shifts: noBins(), events: noBins() },
  };
}

/** Sum of two scores, count by count. */
export function addScores<T>(a: T, b: T): T {
  if (typeof a === 'number') return (a + (b as number)) as T;
  if (Array.isArray(a)) return a.map((value, i) => addScores(value, (b as unknown[])[i])) as T;
  return Object.fromEntries(
    Object.entries(a as object).map(([key, value]) => [key, addScores(value, (b as Record<string, unknown>)[key])]),
  ) as T;
}

export const precisionOf = ({ found, wrong }: Detection): number => found / (found + wrong);
export const recallOf = ({ found, overlooked }: Detection): number => found / (found + overlooked);
/** Harmonic mean of precision and recall; NaN where nothing was there and nothing reported. */
export const f1Of = ({ found, overlooked, wrong }: Detection): number => (2 * found) / (2 * found + overlooked + wrong);

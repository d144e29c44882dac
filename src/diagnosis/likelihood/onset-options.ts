import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { AdjustmentGroup } from '../../adjustments/adjustment-periods.ts';
import { onsetPriors } from '../assumptions.ts';
import type { Cause } from '../causes.ts';
import type { EvidenceSegment } from '../evidence/evidence-table.ts';

/**
 * One way a fault can begin, by the segments that have a place in the order of time. Segments before `halfFrom` are healthy, those from `fullFrom` on have the fault in full,
 * those between have half of it.
 */
export interface OnsetOption {
  readonly kind: 'steady' | 'sudden' | 'gradual';
  readonly halfFrom: number;
  readonly fullFrom: number;
  /** Segments from here on are healthy again, though nobody logged why; Infinity where the fault stays. */
  readonly goneFrom: number;
}

/**
 * The ways a fault can begin within these segments: steady first, then a sudden one at each border, then gradual ones, then steady ones
 * that are gone from a later ride on, with nothing logged between.
 *
 * @param segments those that have a place in the order of time
 */
export function onsetOptions(segments: readonly Pick<EvidenceSegment, 'ride' | 'period'>[]): OnsetOption[] {
  const segmentCount = segments.length;
  const stays = { goneFrom: Number.POSITIVE_INFINITY };
  const options: OnsetOption[] = [{ kind: 'steady', halfFrom: 0, fullFrom: 0, ...stays }];
  for (let from = 1; from < segmentCount; from++)
    options.push({ kind: 'sudden', halfFrom: from, fullFrom: from, ...stays });
  if (segmentCount >= 3) {
    const third = Math.round(segmentCount / 3);
    const twoThirds = Math.min(segmentCount - 1, Math.round((2 * segmentCount) / 3));
    options.push({ kind: 'gradual', halfFrom: third, fullFrom: twoThirds, ...stays });
    options.push({ kind: 'gradual', halfFrom: 0, fullFrom: Math.floor(segmentCount / 2), ...stays });
  }
  for (let gone = 1; gone < segmentCount; gone++) {
    const [before, after] = [segments[gone - 1], segments[gone]];
    // where something was logged between the rides, that is weighed for what it did
    if (after.ride !== before.ride && after.period === before.period)
      options.push({ kind: 'steady', halfFrom: 0, fullFrom: 0, goneFrom: gone });
  }
  return options;
}

/** Share of the steady faults that somebody puts right between two of the rides without a word in the log. An assumption of ours. */
const PUT_RIGHT_UNLOGGED = 0.03;

/** Parameters whose adjustment can itself bring a cause about. */
const broughtBy: Partial<Record<Cause, readonly Adjustment['parameter'][]>> = {
  'cable-tension-low': ['cable-tension', 'index-offset', 'cable-and-housing'],
  'cable-tension-high': ['cable-tension', 'index-offset'],
  'low-limit-tight': ['low-limit', 'wheel', 'cassette'],
  'low-limit-loose': ['low-limit', 'wheel', 'cassette'],
  'high-limit-tight': ['high-limit', 'wheel', 'cassette'],
  'high-limit-loose': ['high-limit', 'wheel', 'cassette'],
  'pulley-gap-small': ['pulley-gap', 'cassette'],
  'pulley-gap-large': ['pulley-gap', 'cassette'],
};

/** Whether the fault is there in some stretches of riding and not in full, or not at all, in others. */
export const changes = (option: OnsetOption): boolean => option.kind !== 'steady' || isGone(option);

/** Whether the fault is gone again by the last segment. */
export const isGone = ({ goneFrom }: OnsetOption): boolean => Number.isFinite(goneFrom);

/** Whether work on a parameter can bring a cause about, or put it right by the way. */
export const canBring = (cause: Cause, parameter: Adjustment['parameter']): boolean =>
  broughtBy[cause]?.includes(parameter) ?? false;

/** A border at which the rider turned this very parameter is that much likelier to be where the fault began. */
const MEDDLED_WEIGHT = 3;

/** Log prior of each option for a cause; -Infinity where it cannot be. */
export function onsetLogPriors(
  cause: Cause,
  options: readonly OnsetOption[],
  segments: readonly EvidenceSegment[],
  groups: readonly AdjustmentGroup[],
): Float64Array {
  const prior = onsetPriors[cause];
  const gone = options.filter(isGone).length;
  const weights = options.map((option) => {
    if (isGone(option)) return PUT_RIGHT_UNLOGGED / gone;
    if (option.kind !== 'sudden') return 1;
    const [before, after] = [segments[option.fullFrom - 1].period, segments[option.fullFrom].period];
    const meddled = groups
      .slice(before, after)
      .some((group) => group.adjustments.some((one) => canBring(cause, one.parameter)));
    return meddled ? MEDDLED_WEIGHT : 1;
  });
  const sums = { steady: 0, sudden: 0, gradual: 0 };
  options.forEach((option, i) => {
    sums[option.kind] += weights[i];
  });
  const reachable = (['steady', 'sudden', 'gradual'] as const).reduce(
    (sum, k) => sum + (sums[k] > 0 ? prior[k] : 0),
    0,
  );
  return Float64Array.from(options, (option, i) =>
    Math.log(((prior[option.kind] / reachable) * weights[i]) / sums[option.kind]),
  );
}

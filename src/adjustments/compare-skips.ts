import { type SkipTally, tallySkips } from '../cogs/tally-skips.ts';
import { probabilityGammaExceeds } from '../numeric/probability-gamma-exceeds.ts';
import type { Adjustment } from './adjustment.ts';
import type { AdjustmentGroup } from './adjustment-periods.ts';
import { isDecided } from './compare-rates.ts';
import { countSkips, type SkipCount } from './count-skips.ts';
import { dated, partOfRide, type RiddenFor } from './part-of-ride.ts';

/** Skips on the parts that were there before a chain or cassette was replaced, against those on the new ones. */
export interface SkipComparison {
  readonly before: SkipCount;
  readonly after: SkipCount;
  /** The same by cog, for every cog of the cassette, smallest first. */
  readonly cogs: { readonly before: readonly SkipTally[]; readonly after: readonly SkipTally[] };
  /** Probability that the chain skips less often since. */
  readonly probabilityFewer: number;
  /** More hours of pedalling until it is decided; 0 when it is, null when nothing was pedalled before or no number within reach would do. */
  readonly hoursStillNeeded: number | null;
}

/** More hours of pedalling than this are not within reach. */
export const FURTHEST_HOURS = 50;

/** Parts by whose wear the chain skips: whose they were, that the skips belong to. */
const wearing: readonly Adjustment['parameter'][] = ['chain', 'cassette'];

/** True for a part by whose wear the chain skips. */
export const wears = (parameter: Adjustment['parameter']): boolean => wearing.includes(parameter);

/**
 * Sets the skips on the old parts against those on the new ones, where a chain or cassette was replaced with a group of adjustments; null
 * where none was. What was turned in between makes no difference: parts last from one replacement to the next.
 *
 * @param groups all of them, in order of time
 */
export function compareSkips(
  rides: readonly RiddenFor[],
  groups: readonly AdjustmentGroup[],
  group: number,
  cassetteLength: number,
): SkipComparison | null {
  const replaces = ({ adjustments }: AdjustmentGroup): boolean => adjustments.some(({ parameter }) => wears(parameter));
  const own = groups[group];
  if (!replaces(own)) return null;
  const fromMs = groups.slice(0, group).findLast(replaces)?.lastMs ?? Number.NEGATIVE_INFINITY;
  const toMs = groups.slice(group + 1).find(replaces)?.firstMs ?? Number.POSITIVE_INFINITY;
  const ridden = (...[from, to]: [number, number]) => dated(rides).map((ride) => partOfRide(ride, from, to));
  const [older, newer] = [ridden(fromMs, own.firstMs), ridden(own.lastMs, toMs)];
  const [before, after] = [countSkips(older), countSkips(newer)];
  return {
    ...{ before, after },
    cogs: { before: tallySkips(older, cassetteLength), after: tallySkips(newer, cassetteLength) },
    probabilityFewer: probabilityFewer(before, after),
    hoursStillNeeded: hoursStillNeeded(before, after),
  };
}

/** A Gamma prior whose mean is the rate of all hours together: a few hours without a skip then say little. 0.5 without hours on both sides. */
function probabilityFewer(before: SkipCount, after: SkipCount): number {
  if (before.hours === 0 || after.hours === 0) return 0.5;
  const priorHours = (before.hours + after.hours) / (before.skips + after.skips + 0.5);
  const known = ({ skips, hours }: SkipCount) => ({ shape: 1 + skips, rate: priorHours + hours });
  return probabilityGammaExceeds(known(before), known(after));
}

/** If they go on as those since, and without a skip where there are none yet. */
function hoursStillNeeded(before: SkipCount, after: SkipCount): number | null {
  if (before.hours === 0) return null;
  const rate = after.hours > 0 ? after.skips / after.hours : 0;
  for (let more = 0; more <= FURTHEST_HOURS; more++) {
    const p = probabilityFewer(before, { skips: after.skips + rate * more, hours: after.hours + more });
    if (isDecided(p)) return more;
  }
  return null;
}

import { mean, range } from 'd3-array';
import { FURTHEST_SHIFTS } from './compare-rates.ts';
import type { EndCogCount } from './end-cog-count.ts';

/** How often a limit that lets the chain past its end cog loses it, a shift onto that cog. An assumption of ours, even on a log scale. */
export const LOOSE_LOSES = { low: 0.015, high: 0.5 } as const;

type Tried = Pick<EndCogCount, 'reached' | 'lost'>;

const GRID = 60;
const rates = range(GRID).map((i) => LOOSE_LOSES.low * (LOOSE_LOSES.high / LOOSE_LOSES.low) ** ((i + 0.5) / GRID));

/**
 * Probability that a limit stops the chain now: either it does, or it loses it as often as before, and before any ride since the one is
 * taken to be as likely as the other. What a turn of its screw moves, nobody knows, so that is not asked. 0 where a chain was lost since;
 * a half where no shift reached that end cog since: one that never got there says nothing of where the chain would have stopped.
 *
 * @param before shifts onto the end cog while chains were lost past it
 * @param since those after the limit was seen to
 * @example limitHolds({ reached: 2, lost: 1 }, { reached: 38, lost: 0 }) // 0.96
 */
export function limitHolds(before: Tried, since: Tried): number {
  if (since.lost > 0) return 0;
  const weights = rates.map((rate) => rate ** before.lost * (1 - rate) ** (before.reached - before.lost));
  const total = mean(weights) ?? 1;
  const keepsAll = (mean(rates, (rate, i) => weights[i] * (1 - rate) ** since.reached) ?? 1) / total;
  return 1 / (1 + keepsAll);
}

/** How many more shifts onto the end cog, if the chain stays on, until it is that sure that its limit holds; null where 600 would not do. */
export function triesStillNeeded(before: Tried, since: Tried, sureness: number): number | null {
  if (since.lost > 0) return null;
  for (let more = 0; more <= FURTHEST_SHIFTS; more++)
    if (limitHolds(before, { reached: since.reached + more, lost: 0 }) >= sureness) return more;
  return null;
}

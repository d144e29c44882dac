import { mean, range } from 'd3-array';
import { FURTHEST_SHIFTS } from './compare-rates.ts';
import type { EndCogCount } from './end-cog-count.ts';

/** How often a limit that lets the chain past its end cog loses it, a shift onto that cog. An assumption of ours, even on a log scale. */
export const LOOSE_LOSES = { low: 0.015, high: 0.5 } as const;

type Tried = Pick<EndCogCount, 'reached' | 'lost'>;
/** Shifts onto the end cog while chains were lost past it; `keptFirst`: those of them on the rides before the first was lost. */
export interface TriedBefore extends Tried {
  readonly keptFirst?: number;
}

const GRID = 60;
const rates = range(GRID).map((i) => LOOSE_LOSES.low * (LOOSE_LOSES.high / LOOSE_LOSES.low) ** ((i + 0.5) / GRID));

/** How likely it is that a limit is loose from the first ride on, where chains were lost on later ones alone; else it came loose with any of the shifts before. An assumption of ours. */
const LOOSE_FROM_FIRST = 0.5;

/** Chance that the chain stays on in the shifts before the first that lost it, at a rate from when on the limit was loose. */
function keptAtFirst(rate: number, shifts: number): number {
  const keeps = 1 - rate;
  const anyBeginning = (1 - keeps ** (shifts + 1)) / ((shifts + 1) * rate);
  return LOOSE_FROM_FIRST * keeps ** shifts + (1 - LOOSE_FROM_FIRST) * anyBeginning;
}

/**
 * Probability that a limit stops the chain now: either it does, or it loses it as often as before, and before any ride since the one is
 * taken to be as likely as the other. What a turn of its screw moves, nobody knows, so that is not asked. 0 where a chain was lost since;
 * a half where no shift reached that end cog since: one that never got there says nothing of where the chain would have stopped.
 *
 * @param before shifts onto the end cog while chains were lost past it
 * @param since those after the limit was seen to
 * @example limitHolds({ reached: 2, lost: 1 }, { reached: 38, lost: 0 }) // 0.96
 */
export function limitHolds({ reached, lost, keptFirst = 0 }: TriedBefore, since: Tried): number {
  if (since.lost > 0) return 0;
  // a lost chain often leaves its own shift unjudged: fewer may have been reached than were kept and lost
  const keptLater = Math.max(0, reached - lost - keptFirst);
  const weights = rates.map((rate) => rate ** lost * (1 - rate) ** keptLater * keptAtFirst(rate, keptFirst));
  const total = mean(weights) ?? 1;
  const keepsAll = (mean(rates, (rate, i) => weights[i] * (1 - rate) ** since.reached) ?? 1) / total;
  return 1 / (1 + keepsAll);
}

/** How many more shifts onto the end cog, if the chain stays on, until it is that sure that its limit holds; null where 600 would not do. */
export function triesStillNeeded(before: TriedBefore, since: Tried, sureness: number): number | null {
  if (since.lost > 0) return null;
  for (let more = 0; more <= FURTHEST_SHIFTS; more++)
    if (limitHolds(before, { reached: since.reached + more, lost: 0 }) >= sureness) return more;
  return null;
}

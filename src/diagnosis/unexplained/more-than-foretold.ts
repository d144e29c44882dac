import { mean } from 'd3-array';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { chanceOfSoMany } from './chance-of-so-many.ts';
import type { ForetoldTrouble } from './foretold-trouble.ts';
import { joinSeen, type SeenTrouble } from './seen-trouble.ts';
import { sureCount } from './sure-count.ts';

/*
 * What is asked before trouble counts as unexplained. Assumptions of ours; how seldom sound bikes and bikes with a single fault meet
 * them, `npm run accuracy -- --only diagnosis` measures.
 */

/** By how much the low end of the rate's interval lies above what was foretold: less is not worth a mechanic's time. */
const LEAST_EXCESS = 0.1;
/** So many clean shifts at the end, and less likely than this at the rate before: it was put right. */
const CLEAN_AT_LAST = 6;
const STILL_THERE = 0.05;

/** The trouble of some cells (`cogCell`) against what a cause foretells. */
export interface TroubleAgainst {
  readonly seen: SeenTrouble;
  /** Chance of so much on a bike as the cause has it. */
  readonly chance: number;
  /** Share of the shifts that it foretells to go wrong. */
  readonly foretold: number;
}

/** How strict to be: the largest chance, and the fewest shifts that surely went wrong, since fewer may have been misread together. */
interface Strictness {
  readonly mostChance: number;
  readonly fewestSure: number;
}

/**
 * Sets trouble against what a cause foretells.
 *
 * @param bikes the cause's imagined bikes
 * @param unlikeness how far such cells may be from what is foretold of them, as a standard deviation of the log odds
 */
export function againstForetold(
  cells: readonly number[],
  all: readonly SeenTrouble[],
  bikes: readonly ForetoldTrouble[],
  unlikeness: number,
): TroubleAgainst {
  const seen = joinSeen(cells.map((cell) => all[cell]));
  const rates = bikes.map(
    (bike) => cells.reduce((sum, cell) => sum + all[cell].shifts * bike[cell], 0) / Math.max(1, seen.shifts),
  );
  return {
    seen,
    chance: mean(rates, (rate) => chanceOfSoMany(sureCount(seen.sure), seen.shifts, rate, unlikeness)) ?? 1,
    foretold: mean(rates) ?? 0,
  };
}

/** Whether so much trouble is left unexplained, and is still there. */
export function moreThanForetold(
  { seen, chance, foretold }: TroubleAgainst,
  { mostChance, fewestSure }: Strictness,
): boolean {
  if (chance >= mostChance || sureCount(seen.sure) < fewestSure || isPutRight(seen)) return false;
  return wilsonInterval(sureCount(seen.sure), seen.shifts).low - foretold >= LEAST_EXCESS;
}

/** Whether the newest shifts there went well, too many to be chance. */
function isPutRight({ shifts, trouble, inOrder }: SeenTrouble): boolean {
  const clean = shifts - 1 - inOrder.findLastIndex(({ wrong }) => wrong);
  return clean >= CLEAN_AT_LAST && (1 - trouble / Math.max(1, shifts - clean)) ** clean < STILL_THERE;
}

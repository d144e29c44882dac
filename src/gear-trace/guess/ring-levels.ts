import { median, range } from 'd3-array';
import { RINGS } from '../../drivetrain/tooth-limits.ts';
import type { CogRung } from './cog-rungs.ts';
import { astraySeconds, levelsCost } from './levels-cost.ts';

/** How many rings the cogs were pedalled on, and where those lie. */
export interface RingLevels {
  /** Log of metres a turn of a cog of one tooth, that is of ring times rollout, rising. */
  readonly levels: readonly number[];
  /** How likely that many rings were pedalled, 0 to 1. */
  readonly likelihood: number;
  /** Seconds of rungs that are on none of them, nor those of a chain that did not reach its cog. */
  readonly astrayS: number;
}

/** What a further ring must earn, in nats. Assumption of ours. */
const FURTHER_RING = 8;
/** Rings lie this far apart, as log: the smallest and the largest ratio of neighbouring rings, and of the outer ones. */
const APART = { least: Math.log(1.2), most: Math.log(2.6) };
/** A further ring shows on so many cogs at least. */
const FEWEST_COGS = 2;
/** A recorded tooth count may be wrong by so much, as log. */
const AS_WRONG_TEETH = 0.25;
/** A rung this near a level is the ring's. */
const NEAR = 0.03;
/** Settled pedalling that tells how many rings there are. */
const FEWEST_S = 120;

/**
 * Tells on how many rings the cogs were pedalled: a second ring lifts every cog that was ridden on it by the same ratio, while a chain that
 * missed its cog lies off by a step of the cassette, another from cog to cog. Levels are added one by one, the one that explains most first.
 *
 * @returns null where too little settled pedalling shows
 */
export function ringLevels(rungs: readonly CogRung[], cassette: readonly number[]): RingLevels | null {
  const seconds = rungs.reduce((sum, rung) => sum + rung.seconds, 0);
  if (seconds < FEWEST_S || new Set(rungs.map(({ cog }) => cog)).size < FEWEST_COGS) return null;
  const found: { levels: readonly number[]; cost: number }[] = [];
  let levels: readonly number[] = [];
  for (let rings = 1; rings <= RINGS.most; rings++) {
    const further = furtherLevel(levels, rungs, cassette);
    if (!further) break;
    levels = further.levels;
    found.push({ levels, cost: further.cost + FURTHER_RING * (rings - 1) });
  }
  const best = found.reduce((a, b) => (b.cost < a.cost ? b : a));
  const all = found.reduce((sum, { cost }) => sum + Math.exp(best.cost - cost), 0);
  return { levels: best.levels, likelihood: 1 / all, astrayS: astraySeconds(best.levels, rungs, cassette) };
}

/** These levels with the one more that lowers the cost most; null where none is far enough from them. */
function furtherLevel(levels: readonly number[], rungs: readonly CogRung[], cassette: readonly number[]) {
  let best: { levels: readonly number[]; cost: number } | null = null;
  for (const { onRing } of rungs) {
    const apart = levels.map((level) => Math.abs(level - onRing));
    if (apart.some((off) => off < APART.least || off > APART.most)) continue;
    const level = centred(onRing, rungs);
    if (levels.length > 0 && cogsThatShow(level, levels, rungs) < FEWEST_COGS) continue;
    const tried = [...levels, level].sort((a, b) => a - b);
    const cost = levelsCost(tried, rungs, cassette);
    if (!best || cost < best.cost) best = { levels: tried, cost };
  }
  return best;
}

/** On how many cogs a further level shows: near to another one only on those that were pedalled there too, since teeth may be written that wrong. */
function cogsThatShow(level: number, levels: readonly number[], rungs: readonly CogRung[]): number {
  const cogs = new Set(near(level, rungs).map(({ cog }) => cog));
  if (levels.every((other) => Math.abs(other - level) > AS_WRONG_TEETH)) return cogs.size;
  const elsewhere = new Set(levels.flatMap((other) => near(other, rungs)).map(({ cog }) => cog));
  return [...cogs].filter((cog) => elsewhere.has(cog)).length;
}

const near = (level: number, rungs: readonly CogRung[]): CogRung[] =>
  rungs.filter(({ onRing }) => Math.abs(onRing - level) < NEAR);

/** The middle of the rungs about a level, by their seconds. */
const centred = (level: number, rungs: readonly CogRung[]): number =>
  median(near(level, rungs).flatMap(({ onRing, seconds }) => range(Math.ceil(seconds / 10)).map(() => onRing))) ??
  level;

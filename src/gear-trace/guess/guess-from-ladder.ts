import { type Bike, possibleBike } from '../../drivetrain/bike.ts';
import { USUAL_ROLLOUT_M } from '../../drivetrain/bike-rollout.ts';
import { COG_TEETH, COGS } from '../../drivetrain/tooth-limits.ts';
import type { Rung } from '../ladder/ladder-peaks.ts';

/** A drivetrain that explains a ladder of ratios, and how much better it does so than the next of another kind. */
export interface LadderGuess {
  readonly bike: Bike;
  /** Cogs that the ladder shows; the others were filled in. */
  readonly seenCogs: readonly number[];
}

const DEVIATION = 0.006;
/** What each further cog must earn (half the logarithm of some thousand seconds, as in Schwarz 1978). */
const COG_COST = 4;
const RING_COST = 6;
const SMALLEST_COG = 9;
const LARGEST_COG = 52;
const ROLLOUT = { logM: Math.log(USUAL_ROLLOUT_M), deviation: 0.03, reach: 0.05, step: 0.0025 };
const SINGLE_RINGS = [30, 32, 34, 36, 38, 40, 42, 44, 46, 48, 50];
const LARGE_RINGS = [38, 40, 42, 44, 46, 48, 50, 52, 53, 54];

/**
 * Finds rings and whole-toothed cogs whose ratios are the rungs of the ladder. Ratios leave the common scale of teeth and rollout
 * open, so usual rings and rollouts are tried (from memory, no source) and the fewest cogs win that explain the rungs.
 *
 * @returns null with fewer than three rungs, or where no bike has such rungs
 */
export function guessFromLadder(rungs: readonly Rung[]): LadderGuess | null {
  if (rungs.length < 3) return null;
  const sets = [
    ...SINGLE_RINGS.map((ring) => [ring]),
    ...LARGE_RINGS.flatMap((large) => [16, 14, 12, 10].map((gap) => [large - gap, large])),
  ];
  let best: { cost: number; rings: readonly number[]; cogs: number[]; logRollout: number } | null = null;
  for (const rings of sets) {
    for (let off = -ROLLOUT.reach; off <= ROLLOUT.reach; off += ROLLOUT.step) {
      const logRollout = ROLLOUT.logM + off;
      const { cost, cogs } = explain(rungs, rings, logRollout);
      const total = cost + (off / ROLLOUT.deviation) ** 2 / 2 + RING_COST * (rings.length - 1);
      if (cogs.length <= COGS.most && (!best || total < best.cost)) best = { cost: total, rings, cogs, logRollout };
    }
  }
  if (!best) return null;
  const bike = possibleBike({
    name: 'bike read from the ladder of ratios',
    chainrings: [...best.rings],
    cassette: completed(best.cogs),
    rolloutMm: Math.round(1000 * Math.exp(best.logRollout)),
    actuation: 'cable',
  });
  return bike && { seenCogs: best.cogs, bike };
}

/** Gives every rung the ring and cog nearest to it. Cost: squared misfit, the room that many teeth leave, and every cog used. */
function explain(
  rungs: readonly Rung[],
  rings: readonly number[],
  logRollout: number,
): { cost: number; cogs: number[] } {
  const used = new Set<number>();
  let cost = 0;
  // the longest ridden rungs name the cogs, the others make do with them where they can
  for (const { logDevelopment, seconds } of [...rungs].sort((a, b) => b.seconds - a.seconds)) {
    const weight = Math.min(1, seconds / 60);
    let best = { cost: 12, cog: 0 };
    for (const ring of rings) {
      const exact = ring * Math.exp(logRollout - logDevelopment);
      const cog = Math.round(exact);
      if (cog < SMALLEST_COG || cog > LARGEST_COG) continue;
      const misfit = (Math.log(exact / cog) / DEVIATION) ** 2 / 2 + Math.log(cog) / 2;
      const total = misfit + (used.has(cog) ? 0 : COG_COST);
      if (total < best.cost) best = { cost: total, cog };
    }
    cost += weight * best.cost;
    if (best.cog > 0) used.add(best.cog);
  }
  return { cost, cogs: [...used].sort((a, b) => a - b) };
}

/** Puts a cog into every gap wider than any cassette has, and more at the ends, until it is a cassette. */
function completed(cogs: readonly number[]): number[] {
  const all = [...cogs];
  for (let i = 0; i + 1 < all.length && all.length < COGS.most; i++)
    if (all[i + 1] / all[i] > 1.27 && all[i + 1] - all[i] > 3)
      all.splice(i + 1, 0, Math.round(Math.sqrt(all[i] * all[i + 1])));
  while (all.length < COGS.least) {
    const largest = all[all.length - 1];
    const larger = Math.max(largest + 1, Math.round(largest * 1.14));
    if (larger <= COG_TEETH.most) all.push(larger);
    else all.unshift(Math.min(all[0] - 1, Math.round(all[0] / 1.14)));
  }
  return all.slice(0, COGS.most);
}

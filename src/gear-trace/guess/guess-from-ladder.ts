import { type Bike, possibleBike } from '../../drivetrain/bike.ts';
import { USUAL_ROLLOUT_M } from '../../drivetrain/bike-rollout.ts';
import { COGS } from '../../drivetrain/tooth-limits.ts';
import type { Rung } from '../ladder/ladder-peaks.ts';
import { completedCassette } from './cassette-cost.ts';
import { explainRungs } from './explain-rungs.ts';
import { usualRings } from './usual-rings.ts';

/** A drivetrain that explains a ladder of ratios, and how far others would explain it too. */
export interface LadderGuess {
  readonly bike: Bike;
  /** Cogs that the ladder shows; the others were filled in. */
  readonly seenCogs: readonly number[];
  /** How likely its cogs are right, up to a common scale of teeth, among all drivetrains tried: 0 to 1. */
  readonly likelihood: number;
  /** How likely its number of rings is right, 0 to 1. */
  readonly ringsLikelihood: number;
}

/** Wheels from small to large tyres, as the log of the usual rollout: what is tried, and how unusual it is. */
const ROLLOUT = { logM: Math.log(USUAL_ROLLOUT_M), deviation: 0.04, reach: 0.09, step: 0.005 };
const FEWEST_RUNGS = 3;
/** Drivetrains that cost this much more than the best, in nats, are as good as ruled out. */
const RULED_OUT = 8;

interface Candidate {
  readonly rings: readonly number[];
  readonly logRollout: number;
  readonly cogs: readonly number[];
  readonly cost: number;
}

/**
 * Finds rings and whole-toothed cogs whose ratios are the rungs of the ladder. Ratios leave the common scale of teeth and rollout
 * open, so usual rings and rollouts are tried, and the likeliest drivetrain wins: one ring or two, on a cassette with usual steps
 * with few gears left out.
 *
 * @returns null with fewer than three rungs, or where no bike has such rungs
 */
export function guessFromLadder(rungs: readonly Rung[]): LadderGuess | null {
  if (rungs.length < FEWEST_RUNGS) return null;
  const candidates = likelyDrivetrains(rungs);
  const best = candidates.reduce<Candidate | null>((a, b) => (a && a.cost <= b.cost ? a : b), null);
  if (!best) return null;
  const bike = possibleBike({
    name: 'bike read from the ladder of ratios',
    chainrings: [...best.rings],
    cassette: completedCassette(best.cogs),
    rolloutMm: Math.round(1000 * Math.exp(best.logRollout)),
    actuation: 'cable',
  });
  return bike && { bike, seenCogs: best.cogs, ...howLikely(best, candidates) };
}

/** Every drivetrain tried that is not ruled out by a likelier one. */
function likelyDrivetrains(rungs: readonly Rung[]): Candidate[] {
  const candidates: Candidate[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (const { rings, cost: unusualRings } of usualRings) {
    for (let off = -ROLLOUT.reach; off <= ROLLOUT.reach; off += ROLLOUT.step) {
      const logRollout = ROLLOUT.logM + off;
      const unusual = unusualRings + (off / ROLLOUT.deviation) ** 2 / 2;
      const { cost, cogs } = explainRungs(rungs, { rings, logRollout }, least + RULED_OUT - unusual);
      if (cogs.length === 0 || completedCassette(cogs).length > COGS.most) continue;
      if (cost + unusual > least + RULED_OUT) continue;
      least = Math.min(least, cost + unusual);
      candidates.push({ rings, logRollout, cogs, cost: cost + unusual });
    }
  }
  return candidates;
}

/** The same drivetrain up to its scale counts once, at its likeliest. */
function howLikely(
  best: Candidate,
  candidates: readonly Candidate[],
): Pick<LadderGuess, 'likelihood' | 'ringsLikelihood'> {
  const leastCost = new Map<string, { cost: number; rings: number }>();
  for (const { rings, cogs, cost } of candidates) {
    const key = `${((rings.at(-1) as number) / rings[0]).toFixed(2)} ${cogs}`;
    const known = leastCost.get(key);
    if (!known || cost < known.cost) leastCost.set(key, { cost, rings: rings.length });
  }
  let all = 0;
  let sameNumberOfRings = 0;
  for (const { cost, rings } of leastCost.values()) {
    const weight = Math.exp(best.cost - cost);
    all += weight;
    if (rings === best.rings.length) sameNumberOfRings += weight;
  }
  return { likelihood: 1 / all, ringsLikelihood: sameNumberOfRings / all };
}

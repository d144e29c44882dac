import { mean, sum } from 'd3-array';
import { USUAL_ROLLOUT_M } from '../../drivetrain/bike-rollout.ts';
import { RING_TEETH } from '../../drivetrain/tooth-limits.ts';

/** Rings in whole teeth, and the rollout at which they have the levels measured. */
export interface RingsAndRollout {
  readonly chainrings: readonly number[];
  readonly rolloutMm: number;
}

/** Largest rings tried, in teeth. */
const LARGEST = { least: 28, most: 56 };
/** How exactly the levels tell the ratio of two rings, as log. */
const DEVIATION = 0.004;
/** Wheels from small to large tyres, as the log of the usual rollout. */
const ROLLOUT = { logM: Math.log(USUAL_ROLLOUT_M), deviation: 0.04, most: 0.16 };
/** What a ring with an odd number of teeth costs, in nats: they are less usual. */
const ODD_TEETH = 0.5;

/**
 * Rings of two or more levels. Ratios leave the common scale of rings and rollout open: of rings with these ratios those are taken that go
 * with a usual wheel.
 *
 * @param levels log of ring times rollout in metres, rising
 * @returns null where no ring in usual numbers of teeth goes with the wheel of a bicycle: the speed is in another unit
 */
export function ringsOfLevels(levels: readonly number[]): RingsAndRollout | null {
  const highest = levels[levels.length - 1];
  let best: { cost: number; rings: RingsAndRollout } | null = null;
  for (let largest = LARGEST.least; largest <= LARGEST.most; largest++) {
    const chainrings = levels.map((level) => Math.round(largest * Math.exp(level - highest)));
    if (chainrings[0] < RING_TEETH.least) continue;
    const scales = levels.map((level, ring) => level - Math.log(chainrings[ring]));
    const logRollout = mean(scales) as number;
    const off = logRollout - ROLLOUT.logM;
    if (Math.abs(off) > ROLLOUT.most) continue;
    const cost =
      sum(scales, (scale) => ((scale - logRollout) / DEVIATION) ** 2 / 2) +
      (off / ROLLOUT.deviation) ** 2 / 2 +
      sum(chainrings, (teeth) => ODD_TEETH * (teeth % 2));
    if (!best || cost < best.cost)
      best = { cost, rings: { chainrings, rolloutMm: Math.round(1000 * Math.exp(logRollout)) } };
  }
  return best?.rings ?? null;
}

import { max, range, sum } from 'd3-array';
import type { Bike } from '../../drivetrain/bike.ts';
import { developmentM } from '../../drivetrain/development.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { ladderPeaks, type Rung } from '../ladder/ladder-peaks.ts';
import { sharpestHistogram } from '../ladder/sharpest-histogram.ts';
import { pedallingSamples } from '../samples/pedalling-samples.ts';
import type { LadderLimits } from './belonging-limits.ts';

/** Step, as a share, in which rollouts are tried. */
const ROLLOUT_STEP = 0.0025;

/** Rungs of the ride's ladder of developments; none where no gears show. */
export function rungsOf(log: RideLog): readonly Rung[] {
  const sharpest = sharpestHistogram(log, pedallingSamples(log));
  return sharpest.whyNone === null ? ladderPeaks(sharpest.histogram) : [];
}

/**
 * Share of a ride's steady seconds that lie in gears whose development the bike has, 0 to 1, at the rollout that fits best of those tried.
 * NaN where nothing can be told: too few rungs, or no rollout known.
 *
 * @param rungs `rungsOf` the ride
 * @param rolloutMm the bike's, NaN where it is not known
 */
export function shareOnGears(
  rungs: readonly Rung[],
  { chainrings, cassette }: Pick<Bike, 'chainrings' | 'cassette'>,
  rolloutMm: number,
  { rungs: fewest, near, rollout }: LadderLimits,
): number {
  if (rungs.length < fewest || Number.isNaN(rolloutMm)) return Number.NaN;
  const gears = chainrings.flatMap((ring) => cassette.map((cog) => Math.log(developmentM(rolloutMm, ring, cog))));
  const inGear = (off: number): number =>
    sum(rungs, ({ logDevelopment, seconds }) =>
      gears.some((gear) => Math.abs(gear + off - logDevelopment) <= near) ? seconds : 0,
    );
  const steps = Math.round(rollout / ROLLOUT_STEP);
  const most = max(range(-steps, steps + 1), (step) => inGear(step * ROLLOUT_STEP)) ?? 0;
  return most / sum(rungs, ({ seconds }) => seconds);
}

import type { Bike } from '../../drivetrain/bike.ts';
import { type GearModel, usualNoise } from '../gear-model.ts';
import { fitLadder } from './fit-ladder.ts';
import type { SharpestHistogram } from './sharpest-histogram.ts';

const ROLLOUT_STEP = 0.004;

/**
 * Fits the gears of a ride without gear records: the rollout and noise at which the bike's ladder of gears explains the
 * steady pedalling best.
 *
 * @param sharpest the ride's histogram at its best speed lag
 * @param expectedLogRollout ln of the rollout in metres from the bike file; NaN where it says nothing (1.3 to 2.6 m are tried)
 */
export function fitUncommandedGears(sharpest: SharpestHistogram, bike: Bike, expectedLogRollout: number): GearModel {
  const known = !Number.isNaN(expectedLogRollout);
  const centre = known ? expectedLogRollout : Math.log(2.1);
  const reach = known ? 0.1 : 0.25;
  // in seconds of evidence: a rollout 3 % off costs as much as 20 s badly explained
  const logPrior = (logRollout: number): number =>
    -20 * Math.min(9, ((logRollout - centre) / (known ? 0.03 : 0.1)) ** 2);
  const logRollouts = Array.from(
    { length: Math.round((2 * reach) / ROLLOUT_STEP) + 1 },
    (_, i) => centre - reach + i * ROLLOUT_STEP,
  );
  const cogs = bike.cassette.length;
  const logRatio = Float64Array.from({ length: bike.chainrings.length * cogs }, (_, gear) =>
    Math.log(bike.chainrings[Math.floor(gear / cogs)] / bike.cassette[gear % cogs]),
  );
  const fit = fitLadder(sharpest.histogram, logRatio, logRollouts, logPrior);
  return {
    rings: bike.chainrings.length,
    cogs,
    logDevelopment: logRatio.map((ratio) => ratio + fit.logRollout),
    speedLagS: sharpest.speedLagS,
    noise: usualNoise(fit.noise),
    logRollout: fit.logRollout,
  };
}

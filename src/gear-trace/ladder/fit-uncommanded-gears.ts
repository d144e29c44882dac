import type { Bike } from '../../drivetrain/bike.ts';
import { type GearModel, usualNoise } from '../gear-model.ts';
import { fitLadder } from './fit-ladder.ts';
import type { SharpestHistogram } from './sharpest-histogram.ts';

/** Rollouts tried, as log: where they lie about, how far either way, and what counts as far off. Those of a usual wheel where the bike file names none. */
const WRITTEN = { reach: 0.1, off: 0.03 };
const USUAL = { logM: Math.log(2.1), reach: 0.25, off: 0.1 };
const ROLLOUT_STEP = 0.004;
/** A rollout that is `off` costs as much as so many seconds badly explained, one further off more, up to so many times that. */
const OFF_COSTS_S = 20;
const MOST_TIMES = 9;

/**
 * Fits the gears of a ride without gear records: the rollout and noise at which the bike's ladder of gears explains the
 * steady pedalling best.
 *
 * @param sharpest the ride's histogram at its best speed lag
 * @param expectedLogRollout ln of the rollout in metres from the bike file; NaN where it says nothing (1.3 to 2.6 m are tried)
 */
export function fitUncommandedGears(sharpest: SharpestHistogram, bike: Bike, expectedLogRollout: number): GearModel {
  const known = !Number.isNaN(expectedLogRollout);
  const centre = known ? expectedLogRollout : USUAL.logM;
  const { reach, off } = known ? WRITTEN : USUAL;
  const logPrior = (logRollout: number): number =>
    -OFF_COSTS_S * Math.min(MOST_TIMES, ((logRollout - centre) / off) ** 2);
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

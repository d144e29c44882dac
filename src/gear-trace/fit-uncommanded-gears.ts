import type { Bike } from '../drivetrain/bike.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { fitLadder } from './fit-ladder.ts';
import type { GearModel } from './gear-model.ts';
import type { PedallingSamples } from './pedalling-samples.ts';
import { steadyHistogram } from './steady-histogram.ts';

const LAGS_S = [-0.5, 0, 0.5, 1, 1.5, 2, 2.5, 3, 4];
const ROLLOUT_STEP = 0.004;
const MIN_STEADY_S = 120;

/**
 * Fits the gears of a ride without gear records: rollout, speed lag and noise at which the bike's ladder of gears
 * explains the steady pedalling best.
 *
 * @param expectedLogRollout ln of the rollout in metres from the bike file; NaN where it says nothing (1.2 to 2.5 m are tried)
 * @returns null with less than two minutes of steady pedalling
 */
export function fitUncommandedGears(
  log: RideLog,
  samples: PedallingSamples,
  bike: Bike,
  expectedLogRollout: number,
): (GearModel & { score: number; steadyS: number }) | null {
  const known = !Number.isNaN(expectedLogRollout);
  const centre = known ? expectedLogRollout : Math.log(2.1);
  const reach = known ? 0.1 : 0.5;
  // in seconds of evidence: a rollout 3 % off costs as much as half a minute badly explained
  const logPrior = (logRollout: number): number =>
    -20 * Math.min(9, ((logRollout - centre) / (known ? 0.03 : 0.15)) ** 2);
  const rollouts = Array.from(
    { length: Math.round((2 * reach) / ROLLOUT_STEP) + 1 },
    (_, i) => centre - reach + i * ROLLOUT_STEP,
  );
  const cogs = bike.cassette.length;
  const logRatio = Float64Array.from({ length: bike.chainrings.length * cogs }, (_, gear) =>
    Math.log(bike.chainrings[Math.floor(gear / cogs)] / bike.cassette[gear % cogs]),
  );
  let best: (GearModel & { score: number; steadyS: number }) | null = null;
  for (const speedLagS of LAGS_S) {
    const histogram = steadyHistogram(log, samples, speedLagS);
    if (histogram.totalS < MIN_STEADY_S) continue;
    const fit = fitLadder(histogram, logRatio, rollouts, logPrior);
    if (best && fit.score <= best.score) continue;
    best = {
      rings: bike.chainrings.length,
      cogs,
      logDevelopment: logRatio.map((ratio) => ratio + fit.logRollout),
      speedLagS,
      noise: fit.noise,
      logRollout: fit.logRollout,
      score: fit.score,
      steadyS: histogram.totalS,
    };
  }
  return best;
}

import { mean } from 'd3-array';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { type DecodedGears, SURELY_DRIVING, SURELY_ON_COG } from '../decoding/decode-gears.ts';
import { ratioDeviation } from '../decoding/gear-emission.ts';
import type { GearModel } from '../gear-model.ts';
import type { PedallingSamples } from '../samples/pedalling-samples.ts';
import { type Peak, robustCentre } from '../samples/robust-centre.ts';
import { noiseAbout } from './residual-noise.ts';

/** Seconds of one gear that share an error of speed or cadence at least: its centre is worth fewer than its seconds. An assumption of ours. */
const LEAST_SHARED_ERROR_S = 6;

/** Where each gear's developments lie in the seconds that were surely spent driving in it. Index `ring * cogs + cog`. */
export const decodedPeaks = (decoded: DecodedGears, model: GearModel): Peak[] =>
  recordsByGear(decoded, model).map((records) =>
    robustCentre(Float64Array.from(records, (t) => decoded.logDevelopment[t])),
  );

/** The peaks with how well the sensors tell them. */
export interface PeaksShown {
  /** The spread is no narrower than the sensors' there: seconds that lie far off are not surely in the gear. */
  readonly peaks: readonly Peak[];
  /** Seconds that share one error of speed or cadence. */
  readonly sharedErrorS: number;
}

/** How well a ride shows its gears' peaks. */
export function peaksShown(
  log: RideLog,
  samples: PedallingSamples,
  decoded: DecodedGears,
  model: GearModel,
): PeaksShown {
  const peaks = decodedPeaks(decoded, model);
  const noise = noiseAbout(
    log,
    decoded,
    model.cogs,
    peaks.map(({ centre }) => centre),
  );
  if (!noise) return { peaks, sharedErrorS: LEAST_SHARED_ERROR_S };
  const deviation = ratioDeviation(log, samples, { ...noise, independence: model.noise.independence });
  const sensors = recordsByGear(decoded, model).map((records) => mean(records, (t) => deviation[t] ** 2) ?? 0);
  return {
    peaks: peaks.map((peak, gear) => ({ ...peak, spread: Math.max(peak.spread, Math.sqrt(sensors[gear])) })),
    sharedErrorS: Math.max(LEAST_SHARED_ERROR_S, noise.sharedErrorS),
  };
}

/** Records that were surely spent driving in each gear. */
function recordsByGear(decoded: DecodedGears, model: GearModel): number[][] {
  const byGear: number[][] = Array.from({ length: model.rings * model.cogs }, () => []);
  for (let t = 2; t + 1 < decoded.cog.length; t++) {
    const cog = decoded.cog[t];
    const ring = decoded.ring[t];
    if (cog < 0 || ring < 0 || decoded.cogProbability[t] < SURELY_ON_COG || decoded.driving[t] < SURELY_DRIVING)
      continue;
    if (decoded.cog[t - 2] !== cog || decoded.cog[t + 1] !== cog || Number.isNaN(decoded.logDevelopment[t])) continue;
    byGear[ring * model.cogs + cog].push(t);
  }
  return byGear;
}

import { mean } from 'd3-array';
import { type DecodedGears, SURELY_DRIVING, SURELY_ON_COG } from '../decoding/decode-gears.ts';
import type { GearModel } from '../gear-model.ts';
import { type Peak, robustCentre } from '../samples/robust-centre.ts';

/**
 * Where each gear's developments lie in the seconds that were surely spent driving in it. Index `ring * cogs + cog`. The spread is no narrower
 * than the sensors' there: seconds that lie far off are not surely in the gear.
 */
export function decodedPeaks(decoded: DecodedGears, model: GearModel): Peak[] {
  const byGear: number[][] = Array.from({ length: model.rings * model.cogs }, () => []);
  for (let t = 2; t + 1 < decoded.cog.length; t++) {
    const cog = decoded.cog[t];
    const ring = decoded.ring[t];
    if (cog < 0 || ring < 0 || decoded.cogProbability[t] < SURELY_ON_COG || decoded.driving[t] < SURELY_DRIVING)
      continue;
    if (decoded.cog[t - 2] !== cog || decoded.cog[t + 1] !== cog || Number.isNaN(decoded.logDevelopment[t])) continue;
    byGear[ring * model.cogs + cog].push(t);
  }
  return byGear.map((records) => {
    const peak = robustCentre(Float64Array.from(records, (t) => decoded.logDevelopment[t]));
    const sensors = Math.sqrt(mean(records, (t) => decoded.deviation[t] ** 2) ?? Number.NaN);
    return { ...peak, spread: Math.max(peak.spread, sensors) };
  });
}

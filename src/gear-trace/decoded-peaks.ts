import { median } from 'd3-array';
import type { DecodedGears } from './decode-gears.ts';
import type { GearModel } from './gear-model.ts';
import { type Peak, robustCentre } from './robust-centre.ts';

/** Where each gear's developments lie in the seconds that were surely spent driving in it. Index `ring * cogs + cog`. */
export function decodedPeaks(decoded: DecodedGears, model: GearModel): Peak[] {
  const byGear: number[][] = Array.from({ length: model.rings * model.cogs }, () => []);
  for (let t = 2; t + 1 < decoded.cog.length; t++) {
    const cog = decoded.cog[t];
    const ring = decoded.ring[t];
    if (cog < 0 || ring < 0 || decoded.cogProbability[t] < 0.9 || decoded.driving[t] < 0.8) continue;
    if (decoded.cog[t - 2] !== cog || decoded.cog[t + 1] !== cog || Number.isNaN(decoded.logDevelopment[t])) continue;
    byGear[ring * model.cogs + cog].push(decoded.logDevelopment[t]);
  }
  return byGear.map(robustCentre);
}

const MIN_RECORDS = 60;
/** Short rides and lucky ones must not make the model surer than any sensor is. */
const LEAST_NOISE = 0.004;

/** Spread (standard deviation) of the log development about the decoded gear's level, in driving seconds; the model's own with too few. */
export function decodedNoise(decoded: DecodedGears, model: GearModel): number {
  const off: number[] = [];
  for (let t = 0; t < decoded.cog.length; t++) {
    if (
      decoded.cog[t] < 0 ||
      decoded.ring[t] < 0 ||
      decoded.driving[t] < 0.8 ||
      Number.isNaN(decoded.logDevelopment[t])
    )
      continue;
    off.push(Math.abs(decoded.logDevelopment[t] - model.logDevelopment[decoded.ring[t] * model.cogs + decoded.cog[t]]));
  }
  return off.length < MIN_RECORDS ? model.noise : Math.max(LEAST_NOISE, 1.4826 * (median(off) as number));
}

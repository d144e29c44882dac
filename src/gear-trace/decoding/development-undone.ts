import type { RideLog } from '../../ride-log/ride-log.ts';
import type { GearModel } from '../gear-model.ts';
import { logDevelopmentColumn, type PedallingSamples } from '../samples/pedalling-samples.ts';
import { restsOf } from '../samples/since-rest.ts';

/** Log development at each record with the speed's lag undone, and what the sensors show wrong after a rest of the legs taken off; NaN where there is no ratio. */
export function developmentUndone(
  log: RideLog,
  samples: PedallingSamples,
  { speedLagS, noise }: Pick<GearModel, 'speedLagS' | 'noise'>,
): Float64Array {
  const column = logDevelopmentColumn(log, samples, speedLagS);
  const { sinceS } = restsOf(log.timeS, samples);
  return column.map((shown, t) => shown - (noise.afterRest?.[Math.floor(sinceS[t])]?.shift ?? 0));
}

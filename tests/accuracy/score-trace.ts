import type { GearTrace } from '../../src/gear-trace/gear-trace.ts';
import type { SimulatedRide } from '../../src/simulate/simulate-rides.ts';
import { settledSeconds } from './matching-rules.ts';
import type { TraceSeconds } from './ride-score.ts';

/** In how many settled seconds the trace names the cog that drove, and the ring with it. Seconds without a record are left out. */
export function scoreTrace({ log, truth }: Pick<SimulatedRide, 'log' | 'truth'>, trace: GearTrace): TraceSeconds {
  const settled = settledSeconds(truth);
  const { cassette, chainrings } = truth.bike;
  const seconds = { right: 0, rightWithRing: 0, unnamed: 0, of: 0 };
  log.timeS.forEach((timeS, i) => {
    const s = Math.round(timeS);
    if (!settled[s]) return;
    seconds.of++;
    if (trace.cog[i] < 0) seconds.unnamed++;
    else if (cassette[trace.cog[i]] === truth.perSecond.cogTeeth[s]) {
      seconds.right++;
      if (chainrings[trace.ring[i]] === truth.perSecond.ringTeeth[s]) seconds.rightWithRing++;
    }
  });
  return seconds;
}

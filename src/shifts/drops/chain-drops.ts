import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import type { ChainDropEvent } from '../ride-events.ts';
import { dropSide } from './drop-side.ts';
import { freeSpins } from './free-spins.ts';
import { haltsAtEnd } from './halts-at-end.ts';
import { likeliestApart } from './likeliest-apart.ts';
import { lowRatios } from './low-ratios.ts';
import { stopsOnLargest } from './stops-on-largest.ts';
import { weighCandidate } from './weigh-candidate.ts';

/**
 * Finds where drive was lost. With the chain off, the cranks turn against nothing: cadence jumps up, the ratio falls below every
 * gear that was lately commanded (which neither freewheeling nor a missed shift can do), power is gone, and the rider
 * stops to put the chain back. Each search measures the signs of its candidates, each sign adds its weight, and of candidates close to
 * each other the likeliest stays; power, where it is measured and still there, rules a drop out.
 */
export function chainDrops(log: RideLog, trace: RideTrace): ChainDropEvent[] {
  const candidates = [
    ...lowRatios(log, trace),
    ...freeSpins(log, trace),
    ...haltsAtEnd(log, trace),
    ...stopsOnLargest(log, trace),
  ];
  const likely = candidates.map(weighCandidate).filter((weighed) => weighed !== null);
  return likeliestApart(likely, log.timeS).map(({ start, signs, confidence }) => {
    const timeS = log.timeS[start];
    const { side, afterShiftTo } = dropSide(log, trace, timeS);
    return { timeS, side, afterShiftTo, confidence, signs };
  });
}

import type { PedallingSamples } from '../../gear-trace/samples/pedalling-samples.ts';
import { firstAfter } from '../first-after.ts';
import type { RevolutionClock } from '../turns/revolution-clock.ts';

/** Long enough to count: 2 s decide whether a shift is judged, more is not asked. */
const COUNT_UP_TO_S = 30;
/** A record shows for no longer before it that the cranks turned: a shift is not judged by turns that nobody saw. */
const LONGEST_STEP_S = 2;

/**
 * Seconds pedalled between two moments, as the records show them; 30 at most. To the millisecond, so that two seconds are not missed by a
 * rounding. The step in which the second moment lies counts up to that. A step in which the clock counts no turn, as over a gap in the records,
 * counts for nothing: a shift without a turn would be missed by rule, whatever the chain did unseen.
 */
export function pedalledBetween(
  timeS: Float64Array,
  { pedalling }: Pick<PedallingSamples, 'pedalling'>,
  clock: Pick<RevolutionClock, 'at'>,
  fromS: number,
  untilS: number,
): number {
  let sum = 0;
  for (let i = firstAfter(timeS, fromS); i < timeS.length && timeS[i - 1] < untilS && sum < COUNT_UP_TO_S; i++)
    if (pedalling[i] && clock.at(timeS[i]) > clock.at(timeS[i - 1]))
      sum += Math.min(LONGEST_STEP_S, Math.min(timeS[i], untilS) - Math.max(timeS[i - 1], fromS));
  return Math.round(sum * 1000) / 1000;
}

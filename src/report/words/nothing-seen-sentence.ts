import { counted } from '../../numeric/counted.ts';
import { nothingToJudge } from '../nothing-to-judge.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { holdNoGearChanges } from '../without-gear-records.ts';
import type { SpokenOf } from './spoken-of.ts';

/** Even rides without a judged shift say a little: that no chain was lost, or how the rider answered a shift. */
export function nothingSeenSentence({ diagnosis, rides: listed = [] }: SpokenOf): string {
  if (diagnosis.heldBack) return diagnosis.heldBack.sentence;
  const { rides, weakShifts } = diagnosis.weighed;
  const counting = ridesThatCount({ rides: listed });
  if (nothingToJudge(counting) === 'no-cadence')
    return `Without cadence no shift can be judged: the gear changes are there${weakShifts > 0 ? ` (${counted(weakShifts, 'shift')})` : ''}, but not where the chain was, which says little for or against any part. Pair a cadence sensor.`;
  if (holdNoGearChanges(counting))
    return rides === 0
      ? 'No gear changes were recorded and no gears show, so nothing speaks for or against any part.'
      : 'No gear changes were recorded, so no shift can be judged; nothing else was seen to go wrong, which says little for or against any part.';
  if (rides === 0) return 'No ride could be weighed, so nothing speaks for or against any part.';
  if (weakShifts > 0)
    return `No shift could be judged: of ${counted(weakShifts, 'shift')} only the rider's answer is known, which says little for or against any part.`;
  return 'No shift could be judged and nothing was seen to go wrong, which says little for or against any part.';
}

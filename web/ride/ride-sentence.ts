import { counted } from '../../src/numeric/counted.ts';
import { figure } from '../../src/numeric/figure.ts';
import { listed } from '../../src/numeric/listed.ts';
import type { RideReport } from '../api/answers.ts';

/**
 * How the ride's shifts went, in a sentence or two.
 *
 * @param unclear how many of those in trouble may have gone another way
 */
export function rideSentence(counts: RideReport['counts'], unclear = 0): string {
  if (counts.shifts === 0 && counts.ghostShifts + counts.chainDrops + counts.skips === 0)
    return 'No shift was recorded in this ride.';
  const judged = counts.shifts - counts.unjudged;
  const trouble = [
    counts.late > 0 && `${figure(counts.late)} late`,
    counts.missed > 0 && `${figure(counts.missed)} missed`,
    counts.overshot > 0 && `${figure(counts.overshot)} too far`,
  ].filter((text): text is string => Boolean(text));
  const unasked = [
    counts.ghostShifts > 0 && counted(counts.ghostShifts, 'ghost shift'),
    counts.chainDrops > 0 && counted(counts.chainDrops, 'chain drop'),
    counts.skips > 0 && counted(counts.skips, 'skip'),
  ].filter((text): text is string => Boolean(text));
  const none =
    counts.shifts === 0
      ? 'No shift was recorded'
      : `None of ${counted(counts.shifts, 'recorded shift')} could be judged`;
  const first =
    judged === 0
      ? `${none}.`
      : `Of ${counted(judged, 'judged shift')}, ${trouble.length > 0 ? `${listed(trouble)}; the rest clean` : judged === 1 ? 'it was clean' : 'all clean'}.`;
  const wrong = counts.late + counts.missed + counts.overshot;
  const which = wrong === 1 ? 'That one' : `${figure(unclear)} of the ${figure(wrong)}`;
  const open = unclear > 0 ? ` ${which} ${unclear === 1 ? 'is' : 'are'} unclear.` : '';
  return `${first}${open}${unasked.length > 0 ? ` ${listed(unasked)}.` : ''}`;
}

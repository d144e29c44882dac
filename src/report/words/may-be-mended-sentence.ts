import type { Cause } from '../../diagnosis/causes.ts';
import { goesAgainst } from '../../diagnosis/now/goes-against.ts';
import { showsTrouble } from '../../diagnosis/now/shifts-well.ts';
import { whatWasDone } from '../../diagnosis/now/what-was-done.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import { standingAdjustments } from '../standing-adjustments.ts';
import { showedSince } from './showed-since.ts';
import type { SpokenOf } from './spoken-of.ts';

/**
 * Of a fault between which and none it is open: that what was done last goes against it, and that hardly anything went wrong since. Empty where it does not,
 * where something did, and where the entry is said to have helped.
 */
export function mayBeMendedSentence(
  fault: Cause,
  { adjustments, diagnosis: { now } }: Pick<SpokenOf, 'adjustments' | 'diagnosis'>,
): string {
  const made = standingAdjustments({ adjustments });
  const last = made.at(-1);
  if (!last || !goesAgainst(fault, last) || showsTrouble(showedSince(now))) return '';
  return ` ${upperFirst(whatWasDone(made, last))} may have put that right; what was ridden since does not tell yet.`;
}

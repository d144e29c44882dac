import { isTogether } from '../../adjustments/made-together.ts';
import { amountWords } from '../../adjustments/parameter-words.ts';
import { listed } from '../../numeric/listed.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { type MadeOnce, whatWasDone } from './what-was-done.ts';

/** As much of an adjustment's comparison as tells whether anything was ridden since: also one from a report. */
interface Made extends MadeOnce {
  readonly after: { readonly shifts: number };
  readonly cancelledOut?: boolean;
}

/** What was done after the newest rides, without what was turned and taken back. */
export const notRiddenOn = <One extends Made>(made: readonly One[], newestFrom: string): One[] =>
  made.filter(
    ({ at, after, cancelledOut }) => !cancelledOut && after.shifts === 0 && Date.parse(at) > Date.parse(newestFrom),
  );

/**
 * That no ride tells of it, as a sentence after a blank; empty where a ride tells of all.
 *
 * @param made in order of time
 * @param newestFrom when the newest rides began that the verdict goes by
 */
export function notRiddenSentence(made: readonly Made[], newestFrom: string): string {
  const open = notRiddenOn(made, newestFrom);
  const [first] = open;
  if (!first) return '';
  const all = open.every((one) => isTogether(one, first));
  const words = all
    ? whatWasDone(open, first)
    : `what was done from ${utcDay(first.at)} on (${listed(open.map(amountWords))})`;
  return ` No ride tells yet of ${words}.`;
}

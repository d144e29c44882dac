import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import { troubleOf } from '../../adjustments/trouble-of.ts';
import { turningWords } from '../../adjustments/turning-words.ts';
import { figure } from '../../numeric/figure.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { type TurnableFault, turnedTowards } from '../now/turned-towards.ts';
import { WORTH_TURNING_BACK_TO } from '../went-well.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/**
 * Said before a ride on what was turned last, where that takes back what had cured the fault: put it back, unless it was meant. Null where nothing
 * was taken back, or it had not cured it.
 */
export function undoesCure(fault: TurnableFault, { comparisons }: SuggestionFacts): string | null {
  const untested = comparisons.filter(({ after }) => after.shifts === 0);
  const ridden = comparisons.filter(({ after }) => after.shifts > 0);
  const back = turnedTowards(fault, untested);
  const last = ridden.findLast(({ parameter }) => untested.some((one) => one.parameter === parameter));
  if (!back || !last || turnedTowards(fault, [last])) return null;
  const { trouble, shifts } = troubleOf(last.after);
  if (last.probabilityBetter < DECIDED_AT || trouble / shifts > WORTH_TURNING_BACK_TO) return null;
  const undone = untested.find((one) => one.parameter === last.parameter);
  if (!undone) return null;
  const amount = Math.sign(last.amount ?? 1) * back.amount;
  const done = turningWords({ parameter: last.parameter, unit: last.unit, amount });
  return `What was done on ${utcDay(undone.at)} takes back what cured it on ${utcDay(last.at)} (${figure(trouble)} of ${figure(shifts)} judged shifts went wrong since that): ${done} again, unless it was meant.`;
}

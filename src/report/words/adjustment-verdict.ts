import { decidedAt, furthestShifts } from '../../adjustments/compare-rates.ts';
import { counted } from '../../numeric/counted.ts';
import { chance } from '../../numeric/percent.ts';
import type { AdjustmentReport } from '../report-schema.ts';
import { rateWithInterval } from './number-words.ts';

/** Whether an adjustment helped, in sentences with the numbers before and after. */
export function adjustmentVerdict(adjustment: AdjustmentReport): string {
  const { before, after, probabilityBetter, shiftsStillNeeded } = adjustment;
  const sentences: string[] = [];
  if (before.shifts === 0) sentences.push('Nothing was judged before it, so there is nothing to compare with.');
  else if (after.shifts === 0)
    sentences.push(`Before it trouble was ${rateWithInterval(before)}; nothing was judged after it yet.`);
  else {
    const better =
      probabilityBetter >= decidedAt
        ? 'It helped'
        : probabilityBetter <= 1 - decidedAt
          ? 'It made shifting worse'
          : 'Not decided yet whether it helped';
    sentences.push(
      `${better}: trouble ${rateWithInterval(before)} in ${counted(before.shifts, 'shift')} before, ` +
        `${rateWithInterval(after)} in ${counted(after.shifts, 'shift')} after; better with a probability of ${chance(probabilityBetter)}.`,
    );
  }
  if (shiftsStillNeeded !== null && shiftsStillNeeded > 0)
    sentences.push(`About ${counted(shiftsStillNeeded, 'more judged shift')} will tell.`);
  if (shiftsStillNeeded === null && before.shifts > 0)
    sentences.push(
      after.shifts > 0
        ? `Not even ${furthestShifts} more judged shifts like those since would tell: the difference is too small.`
        : `Not even ${furthestShifts} judged shifts that go well would tell: there was too little trouble before.`,
    );
  if (adjustment.sharedPeriod)
    sentences.push('Other work was done at the same time, so its share cannot be told apart.');
  return sentences.join(' ');
}

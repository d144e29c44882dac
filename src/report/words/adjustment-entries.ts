import { madeTogether } from '../../adjustments/made-together.ts';
import { adjustmentWords } from '../../adjustments/parameter-words.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { adjustmentVerdict, NOT_TOLD_APART } from './adjustment-verdict.ts';
import { utcDayAndTime } from './moment-words.ts';

/**
 * What was adjusted and whether it helped, an entry for each; those with no judged shift between are judged together, in one, but for limit
 * screws, each of which has an end cog of its own.
 */
export const adjustmentEntries = (adjustments: readonly AdjustmentReport[]): string[] =>
  madeTogether(adjustments).map(
    (made) =>
      `${made.map((one) => `${utcDayAndTime(one.at)}  ${adjustmentWords(one)}`).join('; ')}. ${verdictOfAll(made)}`,
  );

function verdictOfAll(made: readonly AdjustmentReport[]): string {
  const together = made.filter(({ endCog }) => !endCog).slice(0, 1);
  const limits = made.filter(({ endCog }) => endCog);
  const said = [...new Set([...together, ...limits].map(adjustmentVerdict))];
  return said.map((one, i) => (i < said.length - 1 ? one.replace(` ${NOT_TOLD_APART}`, '') : one)).join(' ');
}

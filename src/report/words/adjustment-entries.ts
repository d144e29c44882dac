import { madeTogether } from '../../adjustments/made-together.ts';
import { adjustmentWords } from '../../adjustments/parameter-words.ts';
import type { AdjustmentReport } from '../report-schema.ts';
import { adjustmentVerdict } from './adjustment-verdict.ts';
import { utcDayAndTime } from './moment-words.ts';

/** What was adjusted and whether it helped, an entry for each; those with no judged shift between are judged together, in one. */
export const adjustmentEntries = (adjustments: readonly AdjustmentReport[]): string[] =>
  madeTogether(adjustments).map(
    (made) =>
      `${made.map((one) => `${utcDayAndTime(one.at)}  ${adjustmentWords(one)}`).join('; ')}. ${adjustmentVerdict(made[0])}`,
  );

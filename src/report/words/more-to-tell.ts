import { utcDay } from '../../numeric/moment-words.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { asDecided, howSurely } from './how-surely.ts';

type Together = NonNullable<AdjustmentReport['together']>;

/** As much of a comparison, of one adjustment or of several turns together, as its figures are told by. */
export type Compared = Pick<AdjustmentReport, 'before' | 'after' | 'endCog' | 'shiftsStillNeeded'>;

/** The figures before and after, and what more riding would tell. */
export interface Told {
  readonly facts: string;
  readonly more: readonly string[];
}

/** Whether several turns the same way helped together; a single one of them need not tell. */
function togetherSentence({ fromAt, probabilityBetter }: Together, facts: string): string {
  const helped = asDecided(probabilityBetter, 'it helped', 'it made shifting worse', 'that is not decided yet either');
  return `Together with what was turned the same way from ${utcDay(fromAt)} on, ${helped}: ${facts}; ${howSurely(probabilityBetter)}.`;
}

/** Once something else was done, nobody rides any more as it was set. */
function noLongerTold(
  { parameter, amount }: AdjustmentReport,
  next: NonNullable<AdjustmentReport['followedBy']>,
): string {
  if (next.parameter !== parameter) return `No longer to be told by itself: other work was done on ${utcDay(next.at)}.`;
  const further = (amount ?? 0) * (next.amount ?? 0) >= 0;
  const done = next.amount === null ? 'done again' : further ? 'turned further' : 'turned back';
  return `No longer to be told: it was ${done} on ${utcDay(next.at)}.`;
}

/** What stands after an adjustment's own figures: of several turns the same way what they did together, and what more riding would tell. */
export function moreToTell(made: AdjustmentReport, tell: (compared: Compared) => Told): string[] {
  const { together, followedBy } = made;
  const { facts, more } = tell(together ?? made);
  return [
    ...(together ? [togetherSentence(together, facts)] : []),
    ...(followedBy && more.length > 0 ? [noLongerTold(made, followedBy)] : more),
  ];
}

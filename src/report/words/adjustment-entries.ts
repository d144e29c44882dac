import { madeTogether } from '../../adjustments/made-together.ts';
import { adjustmentWords, parameterName } from '../../adjustments/parameter-words.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import { utcMoment } from '../../numeric/moment-words.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { NOT_TOLD_APART, verdictSentences } from './adjustment-verdict.ts';

/**
 * What was adjusted and whether it helped, an entry for each; those with no judged shift between are judged together, in one, but for limit
 * screws, each of which has an end cog of its own, and for chain and cassette, which go by skips.
 */
export const adjustmentEntries = (adjustments: readonly AdjustmentReport[]): string[] =>
  madeTogether(adjustments).map(
    (made) => `${made.map((one) => `${utcMoment(one.at)}  ${adjustmentWords(one)}`).join('; ')}. ${verdictOfAll(made)}`,
  );

function verdictOfAll(all: readonly AdjustmentReport[]): string {
  const made = all.filter(({ cancelledOut }) => !cancelledOut);
  const takenBack = all.filter(({ cancelledOut }) => cancelledOut).slice(0, 1);
  const together = made.filter(({ endCog, skipping }) => !endCog && !skipping).slice(0, 1);
  const worn = made.filter(({ skipping }) => skipping).slice(0, 1);
  // one screw turned twice in one go is one setting: what it still needs, the last turn of it says
  const limits = made.filter(
    ({ endCog, parameter }, place) =>
      endCog && !made.slice(place + 1).some((later) => later.endCog && later.parameter === parameter),
  );
  const mixed = together.length > 0 && limits.length > 0;
  const byEndCog = limits.flatMap((one) => (mixed ? named(one) : verdictSentences(one)));
  const said = new Set([...[...takenBack, ...together, ...worn].flatMap(verdictSentences), ...byEndCog]);
  const apart = said.delete(NOT_TOLD_APART) ? [NOT_TOLD_APART] : [];
  return [...said, ...apart].join(' ');
}

/** What is judged by its end cog, named where it stands after what is judged with all that was done beside it. */
function named(one: AdjustmentReport): string[] {
  const [first = '', ...rest] = verdictSentences(one);
  return [`${upperFirst(parameterName(one.parameter))}, by its end cog alone: ${lowerFirst(first)}`, ...rest];
}

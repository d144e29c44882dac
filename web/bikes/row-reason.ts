import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { chance } from '../../src/numeric/percent.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { BikeSummary } from '../api/answers.ts';
import { inOwnZone } from '../words/dates.ts';

/** A sentence of the bike's report with its dates in the reader's time zone. */
export const datedIn = ({ adjustmentMarks, trend }: BikeSummary, sentence: string): string =>
  inOwnZone(
    sentence,
    adjustmentMarks.map(({ at }) => at),
    trend.map(({ at }) => at),
  );

/** Why a bike is in its state, as its row has room for: every danger, else the first reason; null where there is nothing to say. */
export function rowReason(summary: BikeSummary): string | null {
  const { bike, state } = summary;
  if (state.underWay) return null;
  if (state.dangers.length > 0) return datedIn(summary, state.dangers.join(' '));
  if (state.reasons.length > 0) return datedIn(summary, state.reasons[0]);
  if (!state.topCause || state.topCause === 'no-fault' || state.probability === null) return null;
  return `${upperFirst(causeWords(state.topCause, bike.actuation).name)} (${chance(state.probability)} likely)`;
}

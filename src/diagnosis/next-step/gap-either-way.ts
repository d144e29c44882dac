import type { Cause } from '../causes.ts';
import { oppositeOf } from '../now/turned-towards.ts';
import { MEASURE_GAP, type NextStep } from './next-steps.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/** A gap is named too small, or too large, where that is so many times as likely as the other. An assumption of ours. */
const PLAINLY_LIKELIER = 4;

/** Whether a cause is a pulley gap that may as well be out the other way. */
export function gapMayBeEitherWay(cause: Cause, { ranked }: Pick<SuggestionFacts, 'ranked'>): boolean {
  if (cause !== 'pulley-gap-small' && cause !== 'pulley-gap-large') return false;
  const likely = (asked: Cause | null): number => ranked.find((one) => one.cause === asked)?.probability ?? 0;
  return likely(cause) < PLAINLY_LIKELIER * likely(oppositeOf(cause));
}

/** The gap is measured and set, and the measure alone says which way: a turn on a guess is as likely the wrong one. */
export const gapByMeasure = ({ start }: Pick<NextStep, 'start'>): Pick<Step, 'steps' | 'start' | 'sense'> => ({
  steps: [
    `${MEASURE_GAP} These rides do not tell whether it is too small or too large: turn nothing before it is measured. Clockwise, the B-screw widens it; anticlockwise, it narrows it.`,
  ],
  start,
  sense: null,
});

import type { UnexplainedTrouble } from '../diagnosis.ts';
import { KEEP_RECORDING, nothingToTurn, type Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { turnNothing } from './turn-nothing.ts';
import { shiftsToProve } from './verify-step.ts';

/** Where no cause explains what goes wrong, the place itself is looked at, and nothing is turned on a guess. */
export function lookThere({ where, look, places }: UnexplainedTrouble, facts: SuggestionFacts): Step {
  const sum = (pick: (place: (typeof places)[number]) => number): number =>
    places.reduce((total, place) => total + pick(place), 0);
  const count = shiftsToProve(
    sum(({ trouble }) => trouble),
    sum(({ shifts }) => shifts),
  );
  const step = nothingToTurn(
    `${turnNothing(facts)} yet, but find out why ${where} go wrong. ${look}`,
    `With the bike on a stand, turn the cranks by hand, make ${where}, and watch where the chain hesitates.`,
    facts.now.keepOff.size > 0
      ? KEEP_RECORDING
      : `On the next ride make at least ${count} ${where}: a cure shows as hardly one of them late or missed.`,
  );
  return { ...step, looksAt: ['unexplained'] };
}

/** A step for what was named leaves the rest as it is: that is looked at too. */
export function alsoLookThere(step: Step, { unexplained }: Pick<SuggestionFacts, 'unexplained'>): Step {
  if (!unexplained || step.looksAt?.includes('unexplained')) return step;
  const { where, look } = unexplained;
  return { ...step, steps: [...step.steps, `Look too at what that leaves unexplained, ${where}. ${look}`] };
}

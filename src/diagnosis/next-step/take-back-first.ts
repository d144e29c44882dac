import type { StandingHarm } from '../../adjustments/standing-harm.ts';
import { standingHarm } from '../../adjustments/standing-harm.ts';
import { turningWords } from '../../adjustments/turning-words.ts';
import { listed } from '../../numeric/listed.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { Cause } from '../causes.ts';
import { signOfCure, turnableFaults } from '../now/turned-towards.ts';
import { nextStep } from './next-steps.ts';
import { senseOfStep } from './sense-of-step.ts';
import { shiftsWell } from './shifts-well.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

const RIDE_AGAIN = 'Then ride again before anything more is turned.';
/** Causes that call for a look before anything is turned: that look goes on whatever is taken back. */
const looks: readonly Cause[] = ['cable-friction', 'worn-drivetrain'];

/** What made shifting worse is taken back before anything else is turned. The step as it was where nothing did. */
export function takeBackFirst(step: Step, facts: SuggestionFacts): Step {
  const harm = harmToTakeBack(facts);
  if (harm.length === 0) return step;
  const back = harm.map(({ parameter, unit, back: amount }) => turningWords({ parameter, unit, amount }));
  const what = `what was done on ${harm[0].at.slice(0, 10)}, since it made shifting worse: ${listed(back)}.`;
  // what can hurt comes before everything: a limit past which a chain was lost, or a derailleur that may reach the spokes
  if (facts.now.keepOff.size > 0 || facts.ranked[0].cause === 'hanger-bent')
    return { ...step, steps: [...step.steps, `Then take back ${what}`] };
  return {
    ...step,
    parameter: harm[0].parameter,
    steps: [`Take back first ${what}`, ...after(step, harm, facts)],
    start: `${upperFirst(listed(back))}, then ride again.`,
    cautions: [...new Set([...cautionsOf(harm, facts.electronic), ...step.cautions])],
    sense: harm[0].back > 0 ? 1 : -1,
  };
}

function harmToTakeBack({ now, wellSince, ranked, seen, comparisons }: SuggestionFacts): StandingHarm[] {
  const open = now.setting === 'same' || now.setting === 'unsettled';
  if (!open || wellSince || ranked[0].cause === 'no-fault' || shiftsWell(seen)) return [];
  return now.since.seen.all.trouble > 0 ? standingHarm(comparisons) : [];
}

/** What is done after it: on, where that is the same way or a look; else nobody knows before the next ride. */
function after(step: Step, harm: readonly StandingHarm[], facts: SuggestionFacts): readonly string[] {
  if (facts.now.setting === 'unsettled') return [RIDE_AGAIN];
  if (looks.includes(facts.ranked[0].cause)) return step.steps;
  const sense = senseOfStep(step, facts);
  const same = harm.length === 1 && harm[0].parameter === step.parameter && Math.sign(harm[0].back) === sense;
  const [next, ...more] = step.steps;
  return same ? [`If that is not enough: ${next}`, ...more] : [RIDE_AGAIN];
}

const cautionsOf = (harm: readonly StandingHarm[], electronic: boolean): readonly string[] =>
  turnableFaults
    .map((fault) => ({ sign: signOfCure(fault), ...nextStep(fault, electronic) }))
    .filter(({ parameter, sign }) => harm.some((one) => one.parameter === parameter && Math.sign(one.back) === sign))
    .flatMap(({ cautions }) => cautions);

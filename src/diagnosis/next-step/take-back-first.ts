import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import type { StandingHarm } from '../../adjustments/standing-harm.ts';
import { standingHarm } from '../../adjustments/standing-harm.ts';
import { turningWords } from '../../adjustments/turning-words.ts';
import { listed } from '../../numeric/listed.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import { limitAt } from '../cassette-ends.ts';
import { causePhrase } from '../cause-words.ts';
import type { Cause } from '../causes.ts';
import { shiftsWell } from '../now/shifts-well.ts';
import { signOfCure, turnableFaults } from '../now/turned-towards.ts';
import { nextStep } from './next-steps.ts';
import { senseOfStep } from './sense-of-step.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { wrongWays } from './wrong-ways.ts';

const RIDE_AGAIN = 'Then ride again before anything more is turned.';
/** Causes that call for a look before anything is turned: that look goes on whatever is taken back. */
const looks: readonly Cause[] = ['cable-friction', 'worn-drivetrain'];

/**
 * What made shifting worse, or went the wrong way for what is named, is taken back before anything else is turned. The step as it was where
 * nothing did.
 */
export function takeBackFirst(step: Step, facts: SuggestionFacts): Step {
  const { harm, why } = toTakeBack(step, facts);
  if (harm.length === 0) return step;
  const back = harm.map(({ parameter, unit, back: amount }) => turningWords({ parameter, unit, amount }));
  const what = `what was done on ${harm[0].at.slice(0, 10)}, since it ${why}: ${listed(back)}.`;
  const { keepOff } = facts.now;
  const closes = harm.every((one) => closesAt(one, keepOff));
  // what can hurt comes before everything: a limit past which a chain was lost, or a derailleur that may reach the spokes
  if ((keepOff.size > 0 && !closes) || facts.ranked[0].cause === 'hanger-bent')
    return { ...step, steps: [...step.steps, `Then take back ${what}`] };
  // a limit is looked at on the stand before anybody rides on
  const [then, ride] = closes ? [thenOn(step), `. ${step.start}`] : [after(step, harm, facts), ', then ride again.'];
  return {
    ...step,
    parameter: harm[0].parameter,
    steps: [`Take back first ${what}`, ...then],
    start: `${upperFirst(listed(back))}${ride}`,
    cautions: [...new Set([...cautionsOf(harm, facts.electronic), ...step.cautions])],
    sense: harm[0].back > 0 ? 1 : -1,
  };
}

interface TakenBack {
  readonly harm: readonly StandingHarm[];
  /** What it did, to stand after "it". */
  readonly why: string;
}

function toTakeBack(step: Step, facts: SuggestionFacts): TakenBack {
  const worse = harmToTakeBack(facts);
  if (worse.length > 0) return { harm: worse, why: 'made shifting worse' };
  const wrong = step.namesCause ? wrongWays(facts).slice(0, 1) : [];
  const phrase = wrong.map(({ fault }) => causePhrase(fault, facts.electronic)).join('');
  return { harm: wrong, why: `was the wrong way for ${phrase}` };
}

/** Whether taking it back screws in a limit past which a chain was lost. */
const closesAt = ({ parameter, back }: StandingHarm, keepOff: ReadonlySet<CassetteEnd>): boolean =>
  back > 0 && [...keepOff].some((end) => limitAt[end].parameter === parameter);

const thenOn = ({ steps: [next, ...more] }: Step): readonly string[] => [`Then: ${lowerFirst(next)}`, ...more];

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

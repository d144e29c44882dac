import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import type { StandingHarm } from '../../adjustments/standing-harm.ts';
import { standingHarm } from '../../adjustments/standing-harm.ts';
import { turningWords } from '../../adjustments/turning-words.ts';
import { listed } from '../../numeric/listed.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import { limitAt } from '../cassette-ends.ts';
import { causePhrase } from '../cause-words.ts';
import { shiftsWell } from '../now/shifts-well.ts';
import type { StandsWhereLost } from '../now/stands-where-lost.ts';
import { signOfCure, turnableFaults } from '../now/turned-towards.ts';
import type { Caution } from './caution.ts';
import type { Work } from './in-order.ts';
import { isMendedByParts, nextStep } from './next-steps.ts';
import { senseOfStep } from './sense-of-step.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { wrongWays } from './wrong-ways.ts';

/** What is taken back, and what that leaves of the step by itself. */
export interface TakenBack {
  readonly work: Work;
  /**
   * `at-once`: it screws in a limit past which a chain was lost. `after`: the step looks at a part, or replaces it, before anything is turned.
   * `before`: any other.
   */
  readonly place: 'at-once' | 'before' | 'after';
  /** The step by itself, as it then stands; a ride where it does not go on. */
  readonly own: Step;
  readonly goesOn: boolean;
}

/** What set a limit back to where it let the chain past, made shifting worse, or went the wrong way for what is named, is taken back before anything else is turned; null where nothing did. */
export function takeBack(step: Step, facts: SuggestionFacts): TakenBack | null {
  const { harm, why } = toTakeBack(step, facts);
  if (harm.length === 0) return null;
  const back = listed(harm.map(({ parameter, unit, back: amount }) => turningWords({ parameter, unit, amount })));
  const work: Work = {
    step: `Take back what was done on ${utcDay(harm[0].at)}, since it ${why}: ${back}.`,
    start: `${upperFirst(back)}, then ride again.`,
    cautions: cautionsOf(harm, facts.electronic),
  };
  const turned = { parameter: harm[0].parameter, sense: harm[0].back > 0 ? (1 as const) : (-1 as const) };
  // a limit is looked at on the stand before anybody rides on
  if (harm.every((one) => closesAt(one, facts.now.keepOff)))
    return {
      work: { ...work, start: 'On a stand, at most a quarter of a turn at a time, with a look after each.' },
      place: 'at-once',
      own: { ...step, ...turned },
      goesOn: true,
    };
  if (looksBeforeTurning(step, facts)) return { work, place: 'after', own: step, goesOn: true };
  const own = goesTheSameWay(step, harm, facts) ? ifNotEnough(step) : rideAgain(step);
  return { work, place: 'before', own: { ...own, ...turned }, goesOn: goesTheSameWay(step, harm, facts) };
}

interface ToTakeBack {
  readonly harm: readonly StandingHarm[];
  /** What it did, to stand after "it". */
  readonly why: string;
}

function toTakeBack(step: Step, facts: SuggestionFacts): ToTakeBack {
  const [open] = facts.now.whereLost;
  if (open) return { harm: [open], why: stoodWhereLost(open) };
  const worse = harmToTakeBack(facts);
  if (worse.length > 0) return { harm: worse, why: 'made shifting worse' };
  const wrong = step.namesCause ? wrongWays(facts).slice(0, 1) : [];
  const phrase = wrong.map(({ fault }) => causePhrase(fault, facts.electronic)).join('');
  return { harm: wrong, why: `was the wrong way for ${phrase}` };
}

const stoodWhereLost = ({ end, furtherOut }: StandsWhereLost): string =>
  `set the ${limitAt[end].screw} ${furtherOut ? 'further out than' : 'back to'} where the chain was lost past the ${endWords[end]} cog`;

/** Whether taking it back screws in a limit past which a chain was lost. */
const closesAt = ({ parameter, back }: StandingHarm, keepOff: ReadonlySet<CassetteEnd>): boolean =>
  back > 0 && [...keepOff].some((end) => limitAt[end].parameter === parameter);

function harmToTakeBack({ now, wellSince, ranked, seen, comparisons }: SuggestionFacts): StandingHarm[] {
  const open = now.setting === 'same' || now.setting === 'unsettled';
  if (!open || wellSince || ranked[0].cause === 'no-fault' || shiftsWell(seen)) return [];
  return now.since.seen.all.trouble > 0 ? standingHarm(comparisons) : [];
}

/** A hanger is looked at in any case: the derailleur on a bent one may reach the spokes. */
const looksBeforeTurning = ({ namesCause }: Step, { ranked: [{ cause }] }: SuggestionFacts): boolean =>
  cause === 'hanger-bent' || (namesCause && isMendedByParts(cause));

/** Whether the step turns the same setting on. Where it does not, nobody knows before the next ride what is left to do. */
function goesTheSameWay(step: Step, harm: readonly StandingHarm[], facts: SuggestionFacts): boolean {
  const sameSetting = harm.length === 1 && harm[0].parameter === step.parameter;
  return sameSetting && Math.sign(harm[0].back) === senseOfStep(step, facts) && facts.now.setting !== 'unsettled';
}

const IF_NOT_ENOUGH = 'If that is not enough: ';

function ifNotEnough({ steps: [next, ...more], first, ...step }: Step): Step {
  const afterHanger = first?.afterHanger;
  return {
    ...step,
    steps: [`${IF_NOT_ENOUGH}${lowerFirst(next)}`, ...more],
    ...(afterHanger !== undefined && { first: { afterHanger: `${IF_NOT_ENOUGH}${lowerFirst(afterHanger)}` } }),
  };
}

const rideAgain = ({ first: _, ...step }: Step): Step => ({
  ...step,
  steps: ['Then ride again before anything more is turned.'],
  start: '',
  looksAt: [],
  keepsOff: [],
});

const cautionsOf = (harm: readonly StandingHarm[], electronic: boolean): readonly Caution[] =>
  turnableFaults
    .map((fault) => ({ sign: signOfCure(fault), ...nextStep(fault, electronic) }))
    .filter(({ parameter, sign }) => harm.some((one) => one.parameter === parameter && Math.sign(one.back) === sign))
    .flatMap(({ cautions }) => cautions);

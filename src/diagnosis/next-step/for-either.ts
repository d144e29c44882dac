import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import { endsLookedAt, limitAt } from '../cassette-ends.ts';
import { causePhrase } from '../cause-words.ts';
import { pointsTheSameWay } from '../now/points-the-same-way.ts';
import { oppositeOf } from '../now/turned-towards.ts';
import { toldByHand } from '../told-by-hand.ts';
import { isSeenTo, lookAgainst } from './after-look.ts';
import { forCause } from './for-cause.ts';
import { gapMayBeEitherWay } from './gap-either-way.ts';
import { isLookedAtFirst } from './look-at-limit.ts';
import { opensAt } from './look-then-open.ts';
import { isMendedByParts, nextStep, workOrder } from './next-steps.ts';
import type { LookedAtPlace, Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';

/** Open between two faults: the step of the likelier one, after a look at the one that comes before it in the order of work; parts are aligned or replaced last. */
export function forEither([likelier, other]: readonly [Fault, Fault], facts: SuggestionFacts): Step {
  const { electronic, clicksFor } = facts;
  const own = forCause(likelier, facts);
  if (lookAgainst(other, facts) || isSeenTo(other, facts)) return own;
  const otherOpens = opensAt(other, facts);
  // nothing is said that would open a limit past which a chain was lost: a look tells both ways
  if (otherOpens) return alsoLook(own, otherOpens, facts);
  // what was turned since may have moved it past the other one's mark: then nobody is told to turn it further
  if (!pointsTheSameWay(other, clicksFor(other))) return own;
  if (gapMayBeEitherWay(likelier, facts) && other === oppositeOf(likelier)) return own;
  const limitBefore = opensAt(likelier, facts) || isLookedAtFirst(likelier, facts);
  const otherBefore = !limitBefore && workOrder.indexOf(other) < workOrder.indexOf(likelier);
  const stepOf = otherBefore ? otherFirst : likelierFirst;
  const step = isLookedAtFirst(other, facts) ? own : stepOf([likelier, other], own, electronic);
  const parts = isMendedByParts(likelier) || isMendedByParts(other);
  const told = step.steps;
  const both = `${causePhrase(likelier, electronic)} and ${causePhrase(other, electronic)}`;
  return {
    ...step,
    steps: parts
      ? [...told.slice(0, -1), `${told.at(-1)} Replace nothing before both were looked for: ${both}.`]
      : told,
    cautions: [...new Set([...nextStep(other, electronic).cautions, ...own.cautions])],
  };
}

function alsoLook(own: Step, end: CassetteEnd, { now, electronic }: SuggestionFacts): Step {
  const { loose, screw } = limitAt[end];
  if (now.keepOff.has(end) || own.looksAt?.includes(end)) return own;
  const lookToo = `The chain was lost past the ${endWords[end]} cog, so look at the ${screw} too. ${toldByHand(loose, electronic)}`;
  return { ...own, steps: [...own.steps, lookToo] };
}

/** The hanger, where it is the fault whose look stands at the beginning. */
const hangerIf = (fault: Fault): readonly LookedAtPlace[] => (fault === 'hanger-bent' ? ['hanger'] : []);

type StepOf = (between: readonly [Fault, Fault], own: Step, electronic: boolean) => Step;

const otherFirst: StepOf = ([, other], own, electronic) => {
  const [next, ...rest] = own.steps;
  const then = other === 'hanger-bent' ? (own.first?.afterHanger ?? next) : next;
  return {
    ...own,
    first: undefined,
    looksFirst: nextStep(other, electronic).parameter,
    steps: [
      `See whether it is ${causePhrase(other, electronic)}: less likely, but earlier in the order of work and soon ruled out.`,
      `If that is not it: ${lowerFirst(then)} ${own.start}`,
      ...rest,
    ],
    start: toldByHand(other, electronic),
    looksAt: [...(own.looksAt ?? []), ...hangerIf(other)],
  };
};

const likelierFirst: StepOf = ([likelier, other], own, electronic) => {
  const said = endsLookedAt(other).some((end) => own.looksAt?.includes(end));
  return {
    ...own,
    steps: [
      ...own.steps,
      ...(said
        ? []
        : [`If that is not it, see whether it is ${causePhrase(other, electronic)}. ${toldByHand(other, electronic)}`]),
    ],
    start: isMendedByParts(likelier) ? `${own.start} ${toldByHand(likelier, electronic)}` : own.start,
    looksAt: [...(own.looksAt ?? []), ...hangerIf(likelier)],
  };
};

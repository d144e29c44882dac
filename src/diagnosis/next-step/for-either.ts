import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import { limitAt } from '../cassette-ends.ts';
import { causePhrase } from '../cause-words.ts';
import type { Cause } from '../causes.ts';
import { pointsTheSameWay } from '../now/points-the-same-way.ts';
import { oppositeOf } from '../now/turned-towards.ts';
import { toldByHand } from '../told-by-hand.ts';
import { after, forCause } from './for-cause.ts';
import { gapMayBeEitherWay } from './gap-either-way.ts';
import { opensAt } from './look-then-open.ts';
import { LOOK_AT_HANGER, nextStep, workOrder } from './next-steps.ts';
import { lookAtLimits } from './not-settled.ts';
import type { Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';

/** Causes that are mended by aligning or replacing a part. */
const mendedByParts: readonly Cause[] = ['hanger-bent', 'cable-friction', 'worn-drivetrain'];

/** Open between two faults: the step of the likelier one, after a look at the one that comes before it in the order of work; parts are aligned or replaced last. */
export function forEither([likelier, other]: readonly [Fault, Fault], facts: SuggestionFacts): Step {
  const { electronic, clicksFor } = facts;
  const own = forCause(likelier, facts);
  const otherOpens = opensAt(other, facts);
  // nothing is said that would open a limit past which a chain was lost: a look tells both ways
  if (otherOpens) return alsoLook(own, otherOpens, electronic);
  // what was turned since may have moved it past the other one's mark: then nobody is told to turn it further
  if (!pointsTheSameWay(other, clicksFor(other))) return own;
  if (gapMayBeEitherWay(likelier, facts) && other === oppositeOf(likelier)) return own;
  const otherBefore = !opensAt(likelier, facts) && workOrder.indexOf(other) < workOrder.indexOf(likelier);
  const stepOf = otherBefore ? otherFirst : likelierFirst;
  const step = stepOf([likelier, other], own, electronic);
  const parts = mendedByParts.includes(likelier) || mendedByParts.includes(other);
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

function alsoLook(own: Step, end: CassetteEnd, electronic: boolean): Step {
  const said = own.steps.some((step) => step.includes(toldByHand(limitAt[end].loose, electronic)));
  return said ? own : { ...own, steps: [...own.steps, ...lookAtLimits(new Set([end]), electronic)] };
}

type StepOf = (between: readonly [Fault, Fault], own: Step, electronic: boolean) => Step;

const otherFirst: StepOf = ([, other], own, electronic) => {
  const [first, ...rest] = own.steps;
  // the hanger was looked at in the step before
  const then = other === 'hanger-bent' ? first.replace(`${LOOK_AT_HANGER} then `, '') : first;
  return after(
    { ...own, steps: [`If that is not it: ${lowerFirst(then)}`, ...rest] },
    {
      step: `See whether it is ${causePhrase(other, electronic)}: less likely, but first in the order of work and soon ruled out.`,
      start: toldByHand(other, electronic),
    },
  );
};

const likelierFirst: StepOf = ([likelier, other], own, electronic) => {
  const lookAtOther = toldByHand(other, electronic);
  const said = own.steps.some((step) => step.includes(lookAtOther));
  return {
    ...own,
    steps: [
      ...own.steps,
      ...(said ? [] : [`If that is not it, see whether it is ${causePhrase(other, electronic)}. ${lookAtOther}`]),
    ],
    start: mendedByParts.includes(likelier) ? `${own.start} ${toldByHand(likelier, electronic)}` : own.start,
  };
};

import type { Look } from '../../adjustments/looks.ts';
import { turningWays } from '../../adjustments/turning-words.ts';
import { counted } from '../../numeric/counted.ts';
import { endsLookedAt, isLoose, limitAt } from '../cassette-ends.ts';
import { isIndexing } from '../causes.ts';
import { signOfCure } from '../now/turned-towards.ts';
import { beganSuddenly } from '../posterior/onset.ts';
import { hangerIsSeenTo, isSeenTo } from './after-look.ts';
import { gapByMeasure, gapMayBeEitherWay } from './gap-either-way.ts';
import { lowLimitWasTurned } from './hanger-first.ts';
import { indexAnew } from './index-anew.ts';
import { limitFirst } from './look-at-limit.ts';
import { lookThenOpen, opensAt } from './look-then-open.ts';
import { nextStep } from './next-steps.ts';
import { partSeenTo } from './part-seen-to.ts';
import type { Step } from './step.ts';
import { generalCautions } from './step-cautions.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { onlyPartOfTheWay, turnsInAll } from './turns-in-all.ts';
import { verifyNow } from './verify-now.ts';
import { whyAgain } from './why-again.ts';

/** The step for one cause that is there, as it was named. */
export function forCause(cause: Fault, facts: SuggestionFacts): Step {
  const { electronic, now } = facts;
  const lostAt = opensAt(cause, facts);
  // lost with everything as it is now: that limit is not opened at all
  if (lostAt && now.trials[lostAt].holds === 0) return limitFirst(facts);
  const step = nextStep(cause, electronic);
  const { start, verify } = startAndVerify(cause, facts);
  const anew = cause === 'cable-friction' ? indexAnew(facts) : [];
  const seenTo = partSeenTo(cause, facts);
  const own = seenTo?.steps ?? [actionFor(cause, facts, hangerIsSeenTo(facts))];
  return {
    namesCause: true,
    parameter: step.parameter,
    steps: [...own, ...anew],
    ...(!seenTo && isLoose(cause) && { first: { afterHanger: actionFor(cause, facts, true) } }),
    looksAt: endsLookedAt(cause),
    start: seenTo?.start ?? start,
    keepsOff: step.keepsOff,
    // what is indexed anew is proved wherever it failed so far
    verify: anew.length > 0 ? verifyNow('no-fault', facts) : verify,
    ...(gapMayBeEitherWay(cause, facts) && gapByMeasure(step)),
    ...(lostAt && lookThenOpen(lostAt, step, facts)),
    cautions: [...step.cautions, ...generalCautions],
  };
}

/** The parts that the step for a cause looks at: a hanger carries the limits along. */
const lookedAtFor = (cause: Fault): readonly Look['parameter'][] =>
  cause === 'hanger-bent'
    ? ['hanger']
    : endsLookedAt(cause).flatMap((end) => ['hanger', limitAt[end].parameter] as const);

/** What to do about a cause, beyond what was seen to. `hanger`: whether the hanger was, or is looked at before it. */
function actionFor(cause: Fault, facts: SuggestionFacts, hanger: boolean): string {
  const seen = { hanger, cable: isSeenTo('cable-friction', facts), lowLimitTurned: lowLimitWasTurned(facts) };
  return nextStep(cause, facts.electronic, seen).action + whyAgain(lookedAtFor(cause), facts);
}

function startAndVerify(cause: Fault, facts: SuggestionFacts): Pick<Step, 'start' | 'verify'> {
  const { electronic, clicks, onset, now } = facts;
  const { start } = nextStep(cause, electronic);
  const verify = verifyNow(cause, facts);
  if (cause === 'hanger-bent') return { start: start + putBack(facts), verify };
  // what was turned before a sudden beginning was no part of the way
  const done = beganSuddenly(onset) ? 0 : now.turnedSoFar;
  if (!isIndexing(cause)) return { start: notEnough(cause, done) + start, verify };
  const inboard = cause === 'cable-tension-low';
  return {
    start: start + turnsInAll(clicks, inboard, done),
    verify: verify + onlyPartOfTheWay(clicks, inboard),
  };
}

/** What was turned before the hanger was looked at is put back, where anything was logged. */
const putBack = ({ comparisons, electronic }: SuggestionFacts): string =>
  comparisons.some(({ parameter }) => parameter === 'cable-tension' || parameter === 'index-offset')
    ? ` Put back any ${electronic ? 'steps that were moved' : 'clicks that were turned'} in vain.`
    : '';

/** Turns of a screw that went the right way and left the fault there, to stand before how to go on; empty where none did. */
function notEnough(cause: Fault, done: number): string {
  const ways = turningWays(nextStep(cause, false).parameter);
  if (!ways || done <= 0) return '';
  const way = signOfCure(cause) === 1 ? ways.plus : ways.minus;
  return `${counted(done, 'turn')} ${way} ${done === 1 ? 'was' : 'were'} not enough. `;
}

import { parameterName } from '../../adjustments/parameter-words.ts';
import { figure } from '../../numeric/figure.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import { causePhrase } from '../cause-words.ts';
import type { Cause } from '../causes.ts';
import type { ShiftsWellSince, Suggestion } from '../diagnosis.ts';
import { undatedCure } from '../evidence/build-evidence.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import { pointsTheSameWay } from '../now/points-the-same-way.ts';
import type { Observed } from '../observed.ts';
import { beganSuddenly } from '../posterior/onset.ts';
import { toldByHand } from '../sentences/told-by-hand.ts';
import { cameOff, generalCautions, intoFrame, intoSpokes, nextStep, workOrder } from './next-steps.ts';
import { limitFirst, lookAtLimits, notSettled, opensWhereLost } from './not-settled.ts';
import { shiftsWell } from './shifts-well.ts';
import { nothingToTurn, type Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { turnBack } from './turn-back.ts';
import { turnsInAll } from './turns-in-all.ts';
import { verifyNow } from './verify-now.ts';

const ALL_BUT_SURE = 0.85;
/** A cause less likely than this names no part. */
const LIKELY_ENOUGH = 0.5;

function fewShifts({ seen, undatedShifts }: SuggestionFacts): Step {
  const undated = undatedShifts > 0 ? `; ${figure(undatedShifts)} more are of a ride without a date` : '';
  return nothingToTurn(
    `Turn nothing yet: too few judged shifts (${seen.all.shifts}) could be weighed to name a part${undated}.`,
    undated
      ? `A ride without a date cannot be set before or after an adjustment: ${undatedCure}.`
      : 'Ride on and record cadence, speed and gear changes.',
    `Look again when there are at least ${FEWEST_SHIFTS} judged shifts, better a hundred.`,
  );
}

function healthy(facts: SuggestionFacts): Step {
  if (facts.rider.probability > 0.5)
    return nothingToTurn(
      'Ease off for half a turn of the crank while shifting; no part needs to be touched.',
      facts.rider.sentence,
      'On the next ride shift with the legs soft: the late and missed shifts should be gone.',
    );
  return nothingToTurn(
    lostChain(facts)
      ? 'Turn nothing, but look over where the chain came off before riding on.'
      : 'Leave everything as it is.',
    'Nothing needs to be turned.',
    'Keep recording; the verdict is worked out again with every ride.',
  );
}

function checkRideFirst(facts: SuggestionFacts, why: string): Step {
  return nothingToTurn(
    `Turn nothing yet: ${why}. Ride the check ride first.`,
    facts.checkRide.sentences[0] ?? 'Ride on and record.',
    'Look again after the check ride: it is made to tell the likeliest causes apart.',
  );
}

function forCause(cause: Fault, facts: SuggestionFacts): Step {
  const { electronic, clicks, onset, now } = facts;
  if (opensWhereLost(cause, now.keepOff)) return limitFirst([...now.keepOff], facts);
  const step = nextStep(cause, electronic);
  const tension = cause === 'cable-tension-low' || cause === 'cable-tension-high';
  const sudden = beganSuddenly(onset) && cause !== 'hanger-bent';
  const hangerFirst = sudden ? 'It began suddenly, so look for damage and have the hanger checked first. ' : '';
  // a bent hanger carries the limits along
  const limitToo = cause === 'hanger-bent' ? lookAtLimits(now.keepOff, electronic) : '';
  return {
    namesCause: true,
    parameter: step.parameter,
    action: hangerFirst + step.action + limitToo,
    start: step.start + (tension ? turnsInAll(clicks, cause === 'cable-tension-low') : ''),
    verify: verifyNow(cause, facts),
    cautions: [...step.cautions, ...generalCautions],
  };
}

/** Causes that are mended by aligning or replacing a part. */
const mendedByParts: readonly Cause[] = ['hanger-bent', 'cable-friction', 'worn-drivetrain'];

/** Open between two faults: the step of the likelier one, after a look at the one that comes before it in the order of work; parts are aligned or replaced last. */
function forEither([likelier, other]: readonly [Fault, Fault], facts: SuggestionFacts): Step {
  const { electronic, now, clicksFor } = facts;
  const own = forCause(likelier, facts);
  if (opensWhereLost(likelier, now.keepOff) || opensWhereLost(other, now.keepOff)) return own;
  // what was turned since may have moved it past the other one's mark: then nobody is told to turn it further
  if (!pointsTheSameWay(other, clicksFor(other))) return own;
  const [a, b] = [causePhrase(likelier, electronic), causePhrase(other, electronic)];
  const otherFirst = workOrder.indexOf(other) < workOrder.indexOf(likelier);
  const order = otherFirst
    ? `${upperFirst(b)} comes first in the order of work, though less likely, and is soon ruled out. ${toldByHand(other, electronic)} If that is not it: ${own.action}`
    : `${upperFirst(a)} comes first in the order of work too. ${toldByHand(likelier, electronic)} ${own.action} If that is not it: ${toldByHand(other, electronic)}`;
  const parts = mendedByParts.includes(likelier) || mendedByParts.includes(other);
  return {
    ...own,
    action: `Open between ${a} and ${b}. ${order}${parts ? ' Replace nothing before both were looked at.' : ''}`,
    cautions: [...new Set([...nextStep(other, electronic).cautions, ...own.cautions])],
  };
}

/** One thing at a time: what was turned last is ridden on before anything else is turned. */
function rideFirst(cause: Fault, untested: { at: string; parameter: string }, facts: SuggestionFacts): Step {
  const step = nextStep(cause, facts.electronic);
  return {
    namesCause: true,
    parameter: step.parameter,
    action: `Ride before anything more is turned: no shift was judged yet after what was done on ${untested.at.slice(0, 10)}: ${parameterName(untested.parameter)}.`,
    start:
      'Try the shifts in question softly, away from traffic, before the ride; stop at once if the chain leaves the cogs.',
    verify: verifyNow(cause, facts),
    cautions: [...step.cautions, ...generalCautions],
  };
}

function leaveAlone({ all }: Observed): Step {
  return nothingToTurn(
    `Turn nothing yet: only ${figure(all.trouble)} of ${figure(all.shifts)} judged shifts went wrong.`,
    'Nothing needs to be turned while the bike shifts as well as this.',
    'Keep recording; the verdict is worked out again with every ride.',
  );
}

/** The newest rides decide whether anything is turned: what was wrong before them is wrong no longer. */
function putRight({ at, shifts, trouble, adjusted }: ShiftsWellSince): Step {
  return nothingToTurn(
    `Turn nothing: since the ride of ${at.slice(0, 10)} the bike shifts well (${trouble} of ${shifts} judged shifts went wrong), so something seems to have been put right.`,
    adjusted
      ? 'What is logged before that ride does not account for it: check its part, amount and sign, and log whatever else was done.'
      : 'If something was adjusted, aligned or replaced before that ride, log what and when: the rides are then weighed with it.',
    'Keep recording; the verdict is worked out again with every ride and every entry.',
  );
}

function cured(cause: Cause, facts: SuggestionFacts): Step {
  return nothingToTurn(
    `Leave it as it is: the last adjustment seems to have cured ${causePhrase(cause, facts.electronic)}.`,
    'Nothing needs to be turned.',
    verifyNow(cause, facts),
  );
}

type Lost = Pick<SuggestionFacts, 'drops'>;
const elsewhere = ({ drops }: Lost): number => drops('chainring') + drops('unknown');
const lostChain = (lost: Lost): boolean =>
  elsewhere(lost) + lost.drops('past-largest') + lost.drops('past-smallest') > 0;

/** The next step: one thing, in the order the trade works in. A chain that came off calls for a look whatever the step is. */
export function suggest(facts: SuggestionFacts): Suggestion {
  const suggestion = oneStep(facts);
  const { drops } = facts;
  const looks = [
    drops('past-largest') > 0 && intoSpokes,
    drops('past-smallest') > 0 && intoFrame,
    elsewhere(facts) > 0 && cameOff,
  ].filter((caution): caution is string => caution !== false && !suggestion.cautions.includes(caution));
  return { ...suggestion, inspectFirst: lostChain(facts), cautions: [...looks, ...suggestion.cautions] };
}

function oneStep(facts: SuggestionFacts): Step {
  const [{ cause, probability }] = facts.ranked;
  const { undecided, seen, now, wellSince } = facts;
  if (now.tooFar) return turnBack(now.tooFar, facts);
  if (seen.all.shifts < FEWEST_SHIFTS && (cause === 'no-fault' || probability < ALL_BUT_SURE)) return fewShifts(facts);
  const open = cause === 'no-fault' && probability < LIKELY_ENOUGH;
  if (wellSince && (cause !== 'no-fault' || open || undecided)) return putRight(wellSince);
  if (open || undecided?.between.includes('no-fault'))
    return checkRideFirst(facts, 'it is not decided whether there is a fault at all');
  if (cause === 'no-fault') return healthy(facts);
  return now.setting === 'same' ? forFault(cause, facts) : afterAdjusting(cause, facts);
}

/** The step where the last adjustment cured the fault, or nobody knows yet what it did. */
function afterAdjusting(cause: Fault, facts: SuggestionFacts): Step {
  const { setting, since } = facts.now;
  if (setting === 'cured') return cured(cause, facts);
  return setting === 'untested' && since.last ? rideFirst(cause, since.last, facts) : notSettled(cause, facts);
}

/** The step for a fault that is there, as it was named. */
function forFault(cause: Fault, facts: SuggestionFacts): Step {
  const [{ probability }] = facts.ranked;
  const { undecided, seen, electronic } = facts;
  if (shiftsWell(seen)) return leaveAlone(seen);
  if (undecided) return forEither(undecided.between as readonly [Fault, Fault], facts);
  if (probability < LIKELY_ENOUGH)
    return checkRideFirst(
      facts,
      `the likeliest cause, ${causePhrase(cause, electronic)}, has a probability of only ${Math.round(100 * probability)} %`,
    );
  return forCause(cause, facts);
}

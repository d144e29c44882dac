import { figure } from '../../numeric/figure.ts';
import { percent } from '../../numeric/percent.ts';
import { causePhrase } from '../cause-words.ts';
import type { Suggestion } from '../diagnosis.ts';
import { failingPlainly } from '../unexplained/plain-trouble.ts';
import { afterAdjusting } from './after-adjusting.ts';
import { afterLook } from './after-look.ts';
import { cautionsOfStep } from './cautions-of-step.ts';
import { easeOff } from './ease-off.ts';
import { fewShifts } from './few-shifts.ts';
import { forCause } from './for-cause.ts';
import { forEither } from './for-either.ts';
import { limitAlone } from './look-at-limit.ts';
import { alsoLookThere, lookThere } from './look-there.ts';
import { lostChain } from './lost-chain.ts';
import { nothingShows } from './nothing-shows.ts';
import { putRight } from './put-right.ts';
import { senseOfStep } from './sense-of-step.ts';
import { KEEP_RECORDING, nothingToTurn, type Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { tellApartFirst } from './tell-apart-first.ts';
import { tryEndCogs } from './try-end-cogs.ts';
import { turnBack } from './turn-back.ts';
import { leaveAsItIs, leaveEverything, nothingNeedsTurning, turnNothing } from './turn-nothing.ts';
import { whichStep } from './which-step.ts';
import { withOtherWork } from './with-other-work.ts';

const bikeInOrder = (facts: SuggestionFacts): Step =>
  lostChain(facts)
    ? nothingToTurn(
        `Look over where the chain came off before riding on. ${turnNothing(facts)}.`,
        'Look at chain, chainring, chain guide and the ends of the cassette, for damage and for what let the chain off.',
        KEEP_RECORDING,
      )
    : leaveAsItIs(leaveEverything(facts), tryEndCogs(facts), facts);

/** Why the likeliest fault is not yet mended. Shifts that fail one way only are a fault, whichever it is. */
const whatIsOpen = (
  cause: Fault,
  { ranked: [{ probability }], failsPlainly, seen, electronic }: SuggestionFacts,
): string =>
  failsPlainly
    ? `${failingPlainly(failsPlainly, seen.cassette)}, but it is not decided which fault it is`
    : `the likeliest cause, ${causePhrase(cause, electronic)}, has a probability of only ${Math.round(100 * probability)} %`;

function leaveAlone(facts: SuggestionFacts): Step {
  const { all } = facts.seen;
  return nothingToTurn(
    `${turnNothing(facts)} yet: only ${figure(all.trouble)} of ${figure(all.shifts)} judged shifts went wrong.`,
    nothingNeedsTurning(facts, ' while the bike shifts as well as this'),
    KEEP_RECORDING,
  );
}

/** The next step: one thing, in the order the trade works in. A chain that came off calls for a look whatever the step is. */
export function suggest(facts: SuggestionFacts): Suggestion {
  const told = alsoLookThere(withOtherWork(oneStep(facts), facts), facts);
  const { looksAt: _, keepsOff: _ends, first, asks, ...step } = told;
  const cautions = cautionsOfStep(told, facts);
  return {
    ...step,
    // what comes before or after a step that leaves all as it is, and a look, is something to do
    ...(asks && step.steps.length === 1 && !lostChain(facts) ? { asks } : {}),
    action: step.steps.join(' '),
    inspectFirst: lostChain(facts),
    sense: senseOfStep(step, facts),
    cautions: cautions.map(({ text }) => text),
    cautionKinds: cautions.map(({ kind }) => kind),
    ...(first?.inShort === undefined ? {} : { inShort: first.inShort }),
  };
}

/** From here on a fault is called likely. */
const FAULT_LIKELY = 2 / 3;

/** Why nothing is turned where it is open whether the bike has a fault. */
function whetherAFault({ ranked }: SuggestionFacts): string {
  const fault = 1 - (ranked.find(({ cause }) => cause === 'no-fault')?.probability ?? 0);
  return fault < FAULT_LIKELY
    ? 'it is not decided whether there is a fault at all'
    : `a fault is likely (${percent(fault)}), but not yet sure`;
}

/** The next step in words. */
function oneStep(facts: SuggestionFacts): Step {
  const next = whichStep(facts);
  // where nothing else is to be done, the look at an end past which a chain was lost is the whole step
  const onlyLooks = facts.now.keepOff.size > 0;
  switch (next.kind) {
    case 'turn-back':
      return turnBack(next.tooFar, facts);
    case 'few-shifts':
      return fewShifts(facts);
    case 'after-adjusting':
      return afterAdjusting(next.cause, facts);
    case 'ease-off':
      return easeOff(facts);
    case 'look-there':
      return lookThere(next.unexplained, facts);
    case 'put-right':
      return onlyLooks && !next.wellSince.putRight ? limitAlone(facts) : putRight(next.wellSince, facts);
    case 'nothing-shows':
      return lostChain(facts) ? bikeInOrder(facts) : nothingShows(facts);
    case 'whether-a-fault':
      return tellApartFirst(facts, whetherAFault(facts));
    case 'which-fault':
      return tellApartFirst(facts, whatIsOpen(next.cause, facts));
    case 'in-order':
      return onlyLooks ? limitAlone(facts) : bikeInOrder(facts);
    case 'leave-alone':
      return leaveAlone(facts);
    case 'after-look':
      return afterLook(next.cause, facts);
    case 'for-either':
      return forEither(next.between, facts);
    case 'for-cause':
      return forCause(next.cause, facts);
  }
}

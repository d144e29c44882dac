import { endWords } from '../../adjustments/end-cog-words.ts';
import { figure } from '../../numeric/figure.ts';
import { causePhrase } from '../cause-words.ts';
import type { Cause } from '../causes.ts';
import type { Suggestion } from '../diagnosis.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import { shiftsWell } from '../now/shifts-well.ts';
import type { Observed } from '../observed.ts';
import { failingOneWay } from '../unexplained/one-way-trouble.ts';
import { ALL_BUT_SURE, LIKELY_ENOUGH } from '../verdict-limits.ts';
import { afterAdjusting } from './after-adjusting.ts';
import { easeOff } from './ease-off.ts';
import { fewShifts } from './few-shifts.ts';
import { forCause } from './for-cause.ts';
import { forEither } from './for-either.ts';
import { alsoLookThere, lookThere } from './look-there.ts';
import { cameOff, intoFrame, intoSpokes } from './next-steps.ts';
import { putRight } from './put-right.ts';
import { senseOfStep } from './sense-of-step.ts';
import { KEEP_RECORDING, nothingToTurn, type Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { tellApartFirst } from './tell-apart-first.ts';
import { turnBack } from './turn-back.ts';
import { withOtherWork } from './with-other-work.ts';

function healthy(facts: SuggestionFacts): Step {
  if (facts.rider.probability > 0.5) return easeOff(facts);
  return nothingToTurn(
    lostChain(facts)
      ? 'Turn nothing, but look over where the chain came off before riding on.'
      : 'Leave everything as it is.',
    'Nothing needs to be turned.',
    KEEP_RECORDING,
  );
}

/** Why the likeliest fault is not yet mended. Shifts that fail one way only are a fault, whichever it is. */
const whatIsOpen = (cause: Fault, { ranked: [{ probability }], failsOneWay, electronic }: SuggestionFacts): string =>
  failsOneWay
    ? `${failingOneWay(failsOneWay)}, but it is not decided which fault it is`
    : `the likeliest cause, ${causePhrase(cause, electronic)}, has a probability of only ${Math.round(100 * probability)} %`;

function leaveAlone({ all }: Observed): Step {
  return nothingToTurn(
    `Turn nothing yet: only ${figure(all.trouble)} of ${figure(all.shifts)} judged shifts went wrong.`,
    'Nothing needs to be turned while the bike shifts as well as this.',
    KEEP_RECORDING,
  );
}

type Lost = Pick<SuggestionFacts, 'drops'>;
const elsewhere = ({ drops }: Lost): number => drops('chainring') + drops('unknown');
const lostChain = (lost: Lost): boolean =>
  elsewhere(lost) + lost.drops('past-largest') + lost.drops('past-smallest') > 0;

/** The next step: one thing, in the order the trade works in. A chain that came off calls for a look whatever the step is. */
export function suggest(facts: SuggestionFacts): Suggestion {
  const { looksAt: _, ...step } = alsoLookThere(withOtherWork(oneStep(facts), facts), facts);
  const { drops } = facts;
  const looks = [
    drops('past-largest') > 0 && intoSpokes,
    drops('past-smallest') > 0 && intoFrame,
    elsewhere(facts) > 0 && cameOff,
    ...keepOffCautions(step, facts),
  ].filter((caution): caution is string => caution !== false && !step.cautions.includes(caution));
  return {
    ...step,
    action: step.steps.join(' '),
    inspectFirst: lostChain(facts),
    sense: senseOfStep(step, facts),
    cautions: [...looks, ...step.cautions],
  };
}

/** Nobody rides onto a cog past which the chain was lost until something shows that it stays on, whatever else the step is about. */
function keepOffCautions({ start, cautions }: Pick<Step, 'start' | 'cautions'>, { now }: SuggestionFacts): string[] {
  return [...now.keepOff]
    .map((end) => endWords[end])
    .filter((cog) => ![start, ...cautions].some((said) => said.toLowerCase().includes(`keep off the ${cog} cog`)))
    .map((cog) => `Keep off the ${cog} cog until its limit was looked at on a stand: the chain was lost past it.`);
}

function oneStep(facts: SuggestionFacts): Step {
  const [{ cause, probability }] = facts.ranked;
  const { undecided, seen, now, wellSince } = facts;
  if (now.tooFar) return turnBack(now.tooFar, facts);
  if (seen.all.shifts < FEWEST_SHIFTS && (cause === 'no-fault' || probability < ALL_BUT_SURE)) return fewShifts(facts);
  // what was done about a limit past which the chain was lost is told before anything that all shifts together leave open
  if (now.trial && now.trial.before.lost > 0 && cause !== 'no-fault' && now.setting !== 'same')
    return afterAdjusting(cause, facts);
  const mayBeInOrder = cause === 'no-fault' || undecided?.between.includes('no-fault');
  if (facts.rider.goneWithSoftLegs && mayBeInOrder && !wellSince) return easeOff(facts);
  const open = cause === 'no-fault' && probability < LIKELY_ENOUGH;
  if (cause === 'no-fault' && facts.unexplained) return lookThere(facts.unexplained, facts);
  if (wellSince && (cause !== 'no-fault' || open || undecided)) return putRight(wellSince);
  if (open || undecided?.between.includes('no-fault'))
    return tellApartFirst(facts, 'it is not decided whether there is a fault at all');
  if (cause === 'no-fault') return healthy(facts);
  return now.setting === 'same' ? forFault(cause, facts) : afterAdjusting(cause, facts);
}

/** The step for a fault that is there, as it was named. */
function forFault(cause: Fault, facts: SuggestionFacts): Step {
  const [{ probability }] = facts.ranked;
  const { undecided, seen } = facts;
  if (shiftsWell(seen)) return facts.unexplained ? lookThere(facts.unexplained, facts) : leaveAlone(seen);
  if (undecided && togetherLikely(undecided.between, facts))
    return forEither(undecided.between as readonly [Fault, Fault], facts);
  if (probability < LIKELY_ENOUGH) return tellApartFirst(facts, whatIsOpen(cause, facts));
  return forCause(cause, facts);
}

/** Whether one of some causes is likelier than all others: else nothing is mended on a guess between them. */
const togetherLikely = (some: readonly Cause[], { ranked }: SuggestionFacts): boolean =>
  ranked.reduce((sum, { cause, probability }) => (some.includes(cause) ? sum + probability : sum), 0) >= LIKELY_ENOUGH;

import { endWords } from '../../adjustments/end-cog-words.ts';
import type { Look } from '../../adjustments/looks.ts';
import { parameterName } from '../../adjustments/parameter-words.ts';
import { listed } from '../../numeric/listed.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { endsLookedAt, isLoose } from '../cassette-ends.ts';
import { causePhrase } from '../cause-words.ts';
import { type Cause, isIndexing } from '../causes.ts';
import { looksFor } from '../looked-for.ts';
import { toldByHand } from '../told-by-hand.ts';
import { standsAlone } from '../what-leads.ts';
import { nextStep } from './next-steps.ts';
import type { Step } from './step.ts';
import { generalCautions } from './step-cautions.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { verifyNow } from './verify-now.ts';
import { lookBeyond } from './worn-parts.ts';

type Looked = Pick<SuggestionFacts, 'foundRight'>;

/** The look that found right what a cause would have wrong, as far as it still stands; undefined where there is none. */
export const lookAgainst = (cause: Cause, { foundRight }: Looked): Look | undefined =>
  foundRight.findLast(({ parameter }) => looksFor(parameter, cause));

/**
 * Whether a look that found right what a cause would have wrong leads on to the next thing. What drags within a housing shows to no eye: where the
 * rides name that alone all the same, the part is replaced.
 */
export const lookLeadsOn = (cause: Cause, facts: Looked & Pick<SuggestionFacts, 'ranked' | 'undecided'>): boolean =>
  lookAgainst(cause, facts) !== undefined && !(cause === 'cable-friction' && isNamedAlone(cause, facts));

const isNamedAlone = (cause: Cause, { ranked, undecided }: Pick<SuggestionFacts, 'ranked' | 'undecided'>) =>
  ranked[0].cause === cause && standsAlone(ranked, undecided);

type Seen = Pick<SuggestionFacts, 'seenTo'>;

/** Whether what a cause would have wrong was found right, aligned or replaced, so that it need not be looked at. */
export const isSeenTo = (cause: Cause, { seenTo }: Seen): boolean =>
  seenTo.some(({ parameter }) => looksFor(parameter, cause));

/** The same of the hanger. */
export const hangerIsSeenTo = (facts: Seen): boolean => isSeenTo('hanger-bent', facts);

/** What else lets a chain past an end cog, once limit and hanger are right. Common practice in the trade, no source. */
const BEYOND_LIMIT_AND_HANGER =
  'Look whether a spacer of the cassette is missing, doubled or in the wrong place, its lockring is tight, the wheel sits fully in the dropouts, and the chain is as long as it should be.';
const MECHANIC = 'Have a qualified mechanic look at the bike.';

/** What is looked at next, and the fault that it looks for, where it is one of the causes. */
interface NextLook {
  readonly look: string;
  readonly fault?: Fault;
}

/** What was named was looked at and found right: that look is not asked for again, nothing of it is turned, and the next thing is looked at. */
export function afterLook(cause: Fault, facts: SuggestionFacts): Step {
  const { electronic } = facts;
  const aligned = isLoose(cause) ? alignedSince(facts) : undefined;
  const found = facts.foundRight.filter(({ parameter }) => looksFor(parameter, cause) || besideLimit(parameter, cause));
  const { look, fault } = nextLook(cause, facts);
  return {
    namesCause: true,
    parameter: fault ? nextStep(fault, electronic).parameter : 'none',
    sense: null,
    looksAt: isLoose(cause) ? ['hanger', ...endsLookedAt(cause)] : [],
    steps: [`${leaveWhatIsRight(found)} ${aligned ? nothingLeft(aligned) : look}`],
    start: aligned
      ? `On a stand, turning the cranks by hand, shift onto the ${endsLookedAt(cause).map((end) => endWords[end])[0]} cog: the chain should stay on there.`
      : fault
        ? toldByHand(fault, electronic)
        : `On a stand: ${lowerFirst(look)}`,
    // where the chain or the derailleur may reach the spokes, the proof stays that of the danger
    verify: verifyNow(isLoose(cause) || cause === 'hanger-bent' ? cause : (fault ?? cause), facts),
    cautions: [
      ...new Set([cause, ...(fault ? [fault] : [])].flatMap((one) => nextStep(one, electronic).cautions)),
      ...generalCautions,
    ],
  };
}

/** A hanger that was aligned since the chain was lost: that may be all there was to mend. */
const alignedSince = ({ foundRight, seenTo }: Looked & Seen): Look | undefined =>
  seenTo.findLast((one) => looksFor(one.parameter, 'hanger-bent') && !foundRight.includes(one));

/** No further part is looked for before what was done is tried. */
const nothingLeft = ({ at, parameter }: Look): string =>
  `The ${parameterName(parameter)} was aligned or replaced on ${utcDay(at)}, and no chain was lost since: nothing is left but to try it, on a stand first, and to ride.`;

function leaveWhatIsRight(found: readonly Look[]): string {
  const parts = [...new Set(found.map(({ parameter }) => parameter))].map((name) => `the ${parameterName(name)}`);
  const last = utcDay(found[found.length - 1].at);
  return `Leave ${listed(parts)} as ${parts.length > 1 ? 'they are' : 'it is'}: looked at and found right (${last}).`;
}

const besideLimit = (parameter: Look['parameter'], cause: Cause): boolean => isLoose(cause) && parameter === 'hanger';

function nextLook(cause: Fault, facts: SuggestionFacts): NextLook {
  if (isLoose(cause))
    return hangerIsSeenTo(facts)
      ? { look: BEYOND_LIMIT_AND_HANGER }
      : {
          look: 'Have the hanger gauged: a bent one lets the chain past the end cog as a loose limit does.',
          fault: 'hanger-bent',
        };
  if (cause === 'worn-drivetrain') return { look: lookBeyond(facts.seenTo.map(({ parameter }) => parameter)) };
  const next = facts.ranked
    .map((one) => one.cause)
    .filter((one): one is Fault => one !== 'no-fault' && one !== cause)
    .find((one) => !lookAgainst(one, facts) && !wouldTurnTheWrongWay(one, facts));
  if (!next) return { look: MECHANIC };
  return { look: `See next whether it is ${causePhrase(next, facts.electronic)}.`, fault: next };
}

/** Whether the clicks of a cause go against those that the rides ask for, which stand in the same report. */
const wouldTurnTheWrongWay = (cause: Fault, { clicks, clicksFor }: SuggestionFacts): boolean =>
  isIndexing(cause) &&
  [clicks, clicksFor(cause)].some(({ low, high }) => (cause === 'cable-tension-low' ? high < 0 : low > 0));

import { type Cause, isIndexing } from '../causes.ts';
import { toldByHand } from '../told-by-hand.ts';
import { showsThere } from '../unexplained/fault-for-sure.ts';
import { EXPLAINED_FROM } from '../verdict-limits.ts';
import { isSeenTo } from './after-look.ts';
import { isLookedAtFirst, limitAlone } from './look-at-limit.ts';
import { nextStep } from './next-steps.ts';
import { KEEP_RECORDING, nothingToTurn, type Step } from './step.ts';
import { generalCautions } from './step-cautions.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { turnNothing } from './turn-nothing.ts';

const isFault = (cause: Cause): cause is Fault => cause !== 'no-fault';

/**
 * Nothing is turned as long as it is open what it is. The causes in question are looked at by hand, which takes minutes; a ride made for it
 * comes where the look leaves it open, or where there is nothing to look at but clicks to be tried.
 *
 * @param why what is open, to stand within a sentence
 */
export function tellApartFirst(facts: SuggestionFacts, why: string): Step {
  const { checkRide, electronic } = facts;
  const rides = checkRide.sentences.length > 0;
  const looks = inQuestion(facts)
    .filter(isFault)
    .filter((fault) => !isLookedAtFirst(fault, facts) && !isSeenTo(fault, facts) && !(rides && isIndexing(fault)));
  const cautions = looks.flatMap((fault) => nextStep(fault, electronic).cautions);
  const [first] = looks;
  const looksFirst = first && !isIndexing(first) ? nextStep(first, electronic).parameter : 'none';
  return {
    ...(looksFirst === 'none' ? {} : { looksFirst }),
    ...(rides && looks.length === 0 ? rideFirst(facts, why) : lookFirst(looks, facts, why)),
    cautions: [...new Set([...cautions, ...generalCautions])],
  };
}

/**
 * Those between which it is open; where shifts plainly fail, those of them that show there. Where it is one cog that fails, or none of them shows
 * there, every cause that does and is likely enough to be explained.
 */
function inQuestion({ ranked, undecided, failsPlainly, seen }: SuggestionFacts): readonly Cause[] {
  const open = undecided?.between ?? ranked.slice(0, 2).map(({ cause }) => cause);
  if (!failsPlainly) return open;
  const shows = (cause: Cause): boolean => showsThere(cause, failsPlainly, seen);
  const shown = failsPlainly.cog === null ? open.filter(shows) : [];
  if (shown.length > 0) return shown;
  return ranked.flatMap(({ cause, probability }) => (probability >= EXPLAINED_FROM && shows(cause) ? [cause] : []));
}

const AFTER_RIDE = 'Look at the verdict again after the check ride.';

/** All that could be looked at was seen to, and no ride would tell: only more riding can. */
const nothingLeft = (facts: SuggestionFacts, why: string): Step =>
  nothingToTurn(
    `${turnNothing(facts)} yet: ${why}.${facts.foundRight.length > 0 ? ' What there was to look at is found right.' : ''}`,
    'Nothing needs to be turned. Where the trouble goes on, have a qualified mechanic look at the bike.',
    KEEP_RECORDING,
  );

/** What is tried and makes no difference is no part of it. */
const PUT_BACK = 'Where they do not, put them back; where they do, leave them and log them.';

const rideFirst = (facts: SuggestionFacts, why: string): Step =>
  nothingToTurn(
    `${turnNothing(facts)} yet: ${why}. Ride the check ride first.`,
    facts.checkRide.sentences[0],
    AFTER_RIDE,
  );

function lookFirst(faults: readonly Fault[], facts: SuggestionFacts, why: string): Step {
  const { checkRide, electronic } = facts;
  const open = `${turnNothing(facts)} yet: ${why}.`;
  const look = faults
    .map((fault) => toldByHand(fault, electronic) + (isIndexing(fault) ? ` ${PUT_BACK}` : ''))
    .join(' ');
  if (look === '' && checkRide.sentences.length === 0)
    return facts.now.keepOff.size > 0 ? limitAlone(facts) : nothingLeft(facts, why);
  if (faults.some(isIndexing))
    return nothingToTurn(
      `Try it on a stand: ${why}, and a few ${electronic ? 'steps' : 'clicks'} tell more than a ride made for it.`,
      look,
      KEEP_RECORDING,
    );
  if (checkRide.sentences.length === 0)
    return nothingToTurn(`${open} A look tells more than a ride made for it.`, look, KEEP_RECORDING);
  const step = nothingToTurn(`${open} Look first, which takes minutes.`, look, AFTER_RIDE);
  const then =
    'Where the look shows what is wrong, put that right and log it; where it leaves it open, ride the check ride.';
  return { ...step, steps: [...step.steps, then] };
}

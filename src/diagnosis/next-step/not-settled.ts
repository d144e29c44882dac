import { endWords } from '../../adjustments/end-cog-words.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { isLoose } from '../cassette-ends.ts';
import { causePlace, shiftsAt } from '../cause-place.ts';
import { causePhrase } from '../cause-words.ts';
import { awaitedProof, awaitedSentence } from '../now/awaited-proof.ts';
import { failsLike } from '../now/fails-like.ts';
import { betterSince, type GotBetter } from '../now/got-better.ts';
import { oppositeOf } from '../now/turned-towards.ts';
import { toldByHand } from '../told-by-hand.ts';
import { limitFirst } from './look-at-limit.ts';
import { nothingToTurn, type Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { verifyNow } from './verify-now.ts';

/** What was ridden since the last adjustment does not tell what became of the fault: nothing is turned on a guess. */
export function notSettled(cause: Fault, facts: SuggestionFacts): Step {
  const { now, electronic } = facts;
  if (now.keepOff.size > 0) return limitFirst(facts);
  const last = now.since.last;
  const better = last && !now.trial ? betterSince(facts.comparisons, cause, last.at, now.since.seen) : null;
  // where nothing was turned against it, nothing can have gone past the mark
  const opposite = (better && now.turnedSoFar === 0) || othersWay(cause, facts) ? null : oppositeOf(cause);
  const orPast = opposite ? `, or by now it is ${causePhrase(opposite, electronic)}` : '';
  const awaited = awaitedProof(facts.comparisons);
  const hand =
    toldByHand(opposite ?? cause, electronic) +
    (opposite && isLoose(opposite) ? ' Keep off that cog where it goes further.' : '');
  const standFirst = now.trial && now.trial.before.lost > 0 ? endWords[now.trial.end] : null;
  return nothingToTurn(
    `${standFirst ? `Shift onto the ${standFirst} cog on a stand, then ride,` : 'Ride'} before anything more is turned: ${better ? betterWords(cause, better, facts) : ''}what was ridden since ${last ? utcDay(last.at) : ''} does not tell yet whether ${causePhrase(cause, electronic)} is put right${orPast}.`,
    `Nothing needs to be turned before that${standFirst ? '' : ' ride'}. ${hand}`,
    awaited ? awaitedSentence(awaited) : verifyNow(cause, facts),
  );
}

/** So many shifts, all clean, where a fault would show: it may be offered no longer. An assumption of ours. */
const ENOUGH_CLEAN = 5;

/** Whether the shifts since on which the fault on the other side of the setting would show all went well. */
function othersWay(cause: Fault, { now: { since } }: SuggestionFacts): boolean {
  const opposite = oppositeOf(cause);
  const place = opposite && causePlace(opposite, since.seen);
  if (!opposite || !place || failsLike(opposite, since)) return false;
  const { shifts, trouble } = shiftsAt(since.seen, place);
  return shifts >= ENOUGH_CLEAN && trouble === 0;
}

const betterWords = (cause: Fault, { words, usualCure }: GotBetter, { electronic }: SuggestionFacts): string =>
  `it got better with ${words}${usualCure ? '' : `, which is not the usual cure for ${causePhrase(cause, electronic)}`}, but `;

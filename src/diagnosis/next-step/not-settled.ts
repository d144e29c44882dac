import { sum } from 'd3-array';
import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { endWords, untriedWords } from '../../adjustments/end-cog-words.ts';
import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import { isLoose, limitAt } from '../cassette-ends.ts';
import { causePhrase } from '../cause-words.ts';
import { oppositeOf } from '../now/turned-towards.ts';
import { toldByHand } from '../told-by-hand.ts';
import { generalCautions, lookThenTurnIn, nextStep } from './next-steps.ts';
import { nothingToTurn, type Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { verifyNow } from './verify-now.ts';

/** What was ridden since the last adjustment does not tell what became of the fault: nothing is turned on a guess. */
export function notSettled(cause: Fault, facts: SuggestionFacts): Step {
  const { now, electronic } = facts;
  if (now.keepOff.size > 0) return limitFirst([...now.keepOff], facts);
  const opposite = oppositeOf(cause);
  const orPast = opposite ? `, or by now it is ${causePhrase(opposite, electronic)}` : '';
  const hand =
    toldByHand(opposite ?? cause, electronic) +
    (opposite && isLoose(opposite) ? ' Keep off that cog where it goes further.' : '');
  return nothingToTurn(
    `Ride before anything more is turned: what was ridden since ${now.since.last?.at.slice(0, 10)} does not tell yet whether ${causePhrase(cause, electronic)} is put right${orPast}.`,
    `Nothing needs to be turned before that ride. ${hand}`,
    verifyNow(cause, facts),
  );
}

/** A look on the stand at the limits past which a chain was lost, before any shift is tried, to stand before it; empty where none was. */
export const provedOnStand = ({ now, electronic }: SuggestionFacts): string =>
  [...now.keepOff]
    .map(
      (end) =>
        `On a stand first, by hand: ${toldByHand(limitAt[end].loose, electronic)} Keep off the ${endWords[end]} cog where it goes further. `,
    )
    .join('');

/** A look at the limits past which a chain was lost, a step each; none where none was. */
export const lookAtLimits = (keepOff: ReadonlySet<CassetteEnd>, electronic: boolean): string[] =>
  [...keepOff].map(
    (end) =>
      `The chain was lost past the ${endWords[end]} cog, so look at the ${limitAt[end].screw} too. ${toldByHand(limitAt[end].loose, electronic)}`,
  );

/** A chain was lost past an end: that limit is looked at by hand before anything else, and never opened. */
export function limitFirst(lostPast: readonly CassetteEnd[], facts: SuggestionFacts): Step {
  const { electronic } = facts;
  const own = lostPast.map((end) => ({ ...limitAt[end], step: nextStep(limitAt[end].loose, electronic) }));
  const cogs = listed(lostPast.map((end) => endWords[end]));
  const looks = lostPast.map((end) => lookThenTurnIn(end, electronic));
  return {
    namesCause: true,
    parameter: own[0].step.parameter,
    steps: [
      `Look before anything else is turned: the chain was lost past the ${cogs} cog${whenLost(lostPast, facts)}. ${looks[0]}`,
      ...looks.slice(1),
    ],
    start: `Do it on a stand, and keep off the ${cogs} cog until it is done.`,
    verify: verifyNow(own[0].loose, facts),
    cautions: [...new Set([...own.flatMap(({ step }) => step.cautions), ...generalCautions])],
  };
}

/** When the chain was lost, as far as something was adjusted: since, or before without a ride since that shows that it stays on. */
function whenLost(lostPast: readonly CassetteEnd[], { now }: SuggestionFacts): string {
  const { last, lost } = now.since;
  if (!last) return '';
  if (lostPast.some((end) => lost(end) > 0)) return ' since the last adjustment';
  const tries = lostPast.map((end) => now.trials[end].since);
  const [asked, shifts, reached] = (['asked', 'shifts', 'reached'] as const).map((key) =>
    sum(tries, (one) => one[key]),
  );
  return ` before the last adjustment, and ${reached === 0 ? untriedWords({ asked, shifts }) : `${counted(reached, 'shift')} onto it since ${reached === 1 ? 'does' : 'do'} not tell whether it stays on`}`;
}

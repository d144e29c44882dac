import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { parameterName } from '../../adjustments/parameter-words.ts';
import { turningWays } from '../../adjustments/turning-words.ts';
import { listed } from '../../numeric/listed.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { looksFor } from '../looked-for.ts';
import { oneWayCured, wayCounts, wayWords } from '../now/one-way-cured.ts';
import { beganSuddenly } from '../posterior/onset.ts';
import { LIKELY_ENOUGH } from '../verdict-limits.ts';
import { lookAgainst } from './after-look.ts';
import { isNewPart } from './look-at-new-part.ts';
import { isMendedByParts } from './next-steps.ts';
import type { Step } from './step.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';
import { lookBeyond } from './worn-parts.ts';

/** What is looked at where cable and housing were seen to and it sticks all the same. Common practice in the trade, no source. */
const REST_OF_CABLE =
  'look at what was not renewed before any indexing: the last bend of housing with its end caps and liner, the clamp, and the pivots of the derailleur.';
const WHERE_IT_STICKS =
  'With the chain off load, pull the bare cable by hand: it should run and spring back freely. Where it does, move the derailleur by hand: it should swing in and spring back without sticking.';
/** The same of a hanger: what was bent once may have bent again, and a derailleur that is itself bent stands as one on a bent hanger. */
const HANGER_ANEW = {
  look: 'look for damage to hanger, derailleur and frame',
  sits: ', and whether the hanger sits tight and the derailleur itself is straight',
  gauge: '. Then have the hanger gauged again, all round the wheel, before anything else is turned.',
};

/** The same where they were only looked at. */
const REPLACE_CABLE =
  'but what drags within a housing shows to no eye, and the shifts tell of it all the same: replace cable and housing before any indexing.';
const PULL_FIRST = 'Before they are bought:';

type SeenTo = Partial<Pick<Step, 'steps' | 'start'>>;

/**
 * The step for a fault whose part was aligned or replaced, and ridden on, while shifts go on failing: the same work is not asked for as if nobody had done
 * it, nor is the look at a cable that was found right. Null where nothing of the kind was done, or the fault began suddenly after it.
 */
export function partSeenTo(cause: Fault, facts: SuggestionFacts): SeenTo | null {
  const { comparisons, electronic, onset } = facts;
  if (!isMendedByParts(cause) || (cause === 'cable-friction' && electronic)) return null;
  const beganMs = beganSuddenly(onset) ? Date.parse(onset.at ?? '') : Number.NEGATIVE_INFINITY;
  const done = comparisons.filter(
    ({ parameter, amount, after, at }) =>
      amount === null && looksFor(parameter, cause) && after.shifts > 0 && !(Date.parse(at) < beganMs),
  );
  if (done.length === 0) return cause === 'cable-friction' ? cableLookedAt(facts) : null;
  const notGone = `${whatWasDone(done)}, and it is not gone:`;
  if (cause === 'hanger-bent') return halfCured(done, facts) ?? { steps: [`${notGone} ${hangerAnew(facts)}`] };
  if (cause === 'cable-friction') return { steps: [`${notGone} ${REST_OF_CABLE}`], start: WHERE_IT_STICKS };
  const look = lookBeyond([...facts.foundRight, ...done].map(({ parameter }) => parameter));
  return { steps: [`${notGone} ${lowerFirst(look)}`], start: 'Look before buying anything.' };
}

function cableLookedAt(facts: SuggestionFacts): SeenTo | null {
  const look = lookAgainst('cable-friction', facts);
  if (!look) return null;
  return {
    steps: [`Cable and housing were looked at on ${utcDay(look.at)} and found right, ${REPLACE_CABLE}`],
    start: `${PULL_FIRST} ${lowerFirst(WHERE_IT_STICKS)}`,
  };
}

/**
 * A hanger that was aligned takes the indexing with it: where shifts one way are cured since and only those the other way fail, the indexing is looked at before the gauge
 * comes out again. Null elsewhere. Common practice in the trade, no source.
 */
function halfCured(
  done: readonly AdjustmentComparison[],
  { now, electronic, comparisons }: SuggestionFacts,
): SeenTo | null {
  const made = done[done.length - 1];
  const isLast = comparisons.findLast(({ after }) => after.shifts > 0)?.group === made.group;
  const halves = isLast && now.stillThere < LIKELY_ENOUGH ? oneWayCured(made) : null;
  if (!halves) return null;
  const { cured, failing } = halves;
  const ways = turningWays(electronic ? 'index-offset' : 'cable-tension');
  const way = failing.direction === 'to-larger' ? ways?.plus : ways?.minus;
  const turn = electronic ? `move the index offset ${way}, one step` : `turn the barrel adjuster ${way}, one click`;
  return {
    steps: [
      `${whatWasDone(done)}, and shifts ${wayWords(cured)} are cured since (${wayCounts(cured)}). Those ${wayWords(failing)} still fail (${wayCounts(failing)}): a hanger that was aligned asks for the indexing to be set anew. On a stand, shift to and fro, and ${turn} at a time, until both directions run alike. Only where that does not do it, have the hanger gauged again.`,
    ],
    start: 'On the stand, before the hanger is touched.',
  };
}

/** Whether it sits tight and straight is asked once, where that work is looked over before anything else. */
function hangerAnew(facts: SuggestionFacts): string {
  const { look, sits, gauge } = HANGER_ANEW;
  return look + (isNewPart('hanger', facts) ? '' : sits) + gauge;
}

/** The parts, each once, and when the last of that work was done. */
function whatWasDone(done: readonly AdjustmentComparison[]): string {
  const day = utcDay(done[done.length - 1].at);
  const names = [...new Set(done.map(({ parameter }) => parameter))];
  if (names[0] === 'cable-and-housing') return `Cable and housing were seen to on ${day}`;
  const often = names.length === 1 && done.length > 1 ? ` ${done.length} times, last` : '';
  const work = names[0] === 'hanger' ? 'aligned or replaced' : 'replaced';
  return `The ${listed(names.map(parameterName))} ${names.length > 1 ? 'were' : 'was'} ${work}${often} on ${day}`;
}

import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { endWords, untriedWords } from '../../adjustments/end-cog-words.ts';
import { counted } from '../../numeric/counted.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { endsLookedAt, limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { beganSuddenly } from '../posterior/onset.ts';
import { afterLook, hangerIsSeenTo, lookAgainst } from './after-look.ts';
import { hangerFirst, lowLimitWasTurned } from './hanger-first.ts';
import type { Work } from './in-order.ts';
import { lookThenTurnIn, nextStep } from './next-steps.ts';
import type { Step } from './step.ts';
import { generalCautions } from './step-cautions.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { verifyNow } from './verify-now.ts';
import { whyAgain } from './why-again.ts';

type Lost = Pick<
  SuggestionFacts,
  'now' | 'onset' | 'electronic' | 'foundRight' | 'seenTo' | 'overtaken' | 'comparisons'
>;

/** The hanger carries the limits along, so it is looked at before them. */
const hangerBefore = (end: CassetteEnd, facts: Lost): string =>
  beganSuddenly(facts.onset)
    ? 'Look for damage and have the hanger checked, since it began suddenly; then see'
    : `${hangerFirst(end, lowLimitWasTurned(facts))} then see`;

/**
 * Looks on a stand at the limits of ends past which a chain was lost, but for those found right since. `hangerToo`: whether the hanger is to be looked
 * at before them, unless it was seen to; then also where the limits are found right, for either lets the chain past.
 */
export function lookAtLimits(ends: readonly CassetteEnd[], facts: Lost, hangerToo: boolean): Work[] {
  const hangerFirst = hangerToo && ends.length > 0 && !hangerIsSeenTo(facts);
  const limits = ends.filter((end) => !lookAgainst(limitAt[end].loose, facts));
  if (hangerFirst && limits.length === 0) return [lookAtHanger(ends[0], facts)];
  return limits.map((end, place) => {
    const both = place === 0 && hangerFirst;
    const look = lookAtLimit(end, facts, both ? hangerBefore(ends[0], facts) : 'See');
    const { parameter } = limitAt[end];
    return { ...look, step: look.step + whyAgain(both ? ['hanger', parameter] : [parameter], facts) };
  });
}

/** Where limit and hanger were both seen to since, what is left is to try it; a step that turns nothing would else not say how it is begun. */
export const tryOnStand = (ends: readonly CassetteEnd[]): Work[] =>
  ends.map((end) => ({
    step: `Shift onto the ${endWords[end]} cog on a stand, turning the cranks by hand, before it is ridden onto again: the chain was lost past it, and what was ridden since does not show yet that it stays on.`,
    start: 'Do it before the next ride.',
  }));

function lookAtHanger(end: CassetteEnd, facts: Lost): Work {
  const { onset, electronic } = facts;
  const why = `the chain was lost past the ${endWords[end]} cog, and a bent one lets it past there as a loose limit does.`;
  const { parameter, cautions } = nextStep('hanger-bent', electronic);
  return {
    step:
      (beganSuddenly(onset)
        ? `Look for damage and have the hanger gauged, since it began suddenly: ${why}`
        : `Have the hanger gauged: ${why}`) + whyAgain(['hanger'], facts),
    start: 'Do it before anything else is turned.',
    parameter,
    cautions,
  };
}

function lookAtLimit(end: CassetteEnd, { now, electronic }: Lost, see: string): Work {
  const { screw, loose } = limitAt[end];
  const cog = endWords[end];
  const setAt = setSinceAt(end, now);
  return {
    step: `${see} on a stand how far the ${screw} lets the derailleur go: the chain was lost past the ${cog} cog${whenLost(end, now)}. ${lookThenTurnIn(end, electronic)}`,
    start: setAt
      ? `The ${screw} was set on ${utcDay(setAt)}: try ten shifts onto the ${cog} cog on a stand, turning the cranks by hand, and turn the screw further only where it lets the derailleur go further. Keep off the ${cog} cog on any ride until the chain stays on there.`
      : `Do it before anything else is turned, on a stand, and keep off the ${cog} cog until it is done.`,
    keepsOff: [end],
    parameter: limitAt[end].parameter,
    cautions: nextStep(loose, electronic).cautions,
  };
}

/**
 * When the limit's own screw was turned in, where that was done last and no chain was lost past it since: then it is tried, not set as if nobody
 * had. Null elsewhere.
 */
function setSinceAt(end: CassetteEnd, { since: { last, lost } }: SuggestionFacts['now']): string | null {
  const set = last?.parameter === limitAt[end].parameter && (last.amount ?? 0) > 0 && lost(end) === 0;
  return set ? last.at : null;
}

/** Whether a cause is a limit that is looked at before anything else, since a chain was lost past its end and nothing shows yet that it stays on. */
export const isLookedAtFirst = (cause: Cause, { now }: Pick<SuggestionFacts, 'now'>): boolean =>
  endsLookedAt(cause).some((end) => now.keepOff.has(end));

/** A chain was lost past an end, and nothing else is done before that limit was looked at by hand; it is never opened. */
export function limitFirst(facts: SuggestionFacts): Step {
  const ends = [...facts.now.keepOff];
  const looks = lookAtLimits(ends, facts, true);
  const { loose } = limitAt[ends[0]];
  if (looks.length === 0) return afterLook(loose, facts);
  return {
    namesCause: true,
    parameter: looks[0].parameter ?? 'none',
    looksAt: ['hanger', ...ends],
    steps: looks.map(({ step }) => step),
    start: looks[0].start,
    keepsOff: looks[0].keepsOff,
    verify: verifyNow(loose, facts),
    cautions: [...new Set([...looks.flatMap(({ cautions = [] }) => cautions), ...generalCautions])],
  };
}

/** The same where nothing else shows: no cause is named, but a chain lost past an end is looked into whatever is likely. */
export const limitAlone = (facts: SuggestionFacts): Step => ({ ...limitFirst(facts), namesCause: false });

/** When the chain was lost, as far as something was adjusted: since, or before without a ride since that shows that it stays on. */
function whenLost(end: CassetteEnd, { since, trials }: SuggestionFacts['now']): string {
  if (!since.last) return '';
  if (since.lost(end) > 0) return ' since the last adjustment';
  const { reached, ...tried } = trials[end].since;
  return ` before the last adjustment, and ${reached === 0 ? untriedWords(tried) : `${counted(reached, 'shift')} that got there since ${reached === 1 ? 'does' : 'do'} not tell whether it stays on`}`;
}

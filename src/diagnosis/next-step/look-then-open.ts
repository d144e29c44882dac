import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import { endOpenedFor, limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { toldByHand } from '../told-by-hand.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { verifyNow } from './verify-now.ts';

/** The end past which a chain was ever lost and whose limit a step would open; null where there is none. */
export function opensAt(cause: Cause, { drops }: Pick<SuggestionFacts, 'drops'>): CassetteEnd | null {
  const end = endOpenedFor(cause);
  return end && drops(end) > 0 ? end : null;
}

/**
 * Opening a limit past which a chain was lost: only where a look shows that it stops short, and only so far. However well the shifts since
 * went, they went so with the limit as it is set now, and say nothing of it once it is opened. Which way it is turned the look decides.
 *
 * @param opening the step as it is without a lost chain; `why`: what was done wrong, as a sentence, where something was
 */
export function lookThenOpen(
  end: CassetteEnd,
  opening: { readonly why?: string; readonly action: string },
  facts: SuggestionFacts,
): Pick<Step, 'steps' | 'start' | 'verify' | 'sense' | 'looksAt' | 'keepsOff'> {
  const { now, electronic } = facts;
  const cog = endWords[end];
  const { loose } = limitAt[end];
  const opened = { ...now.trials[end], since: { asked: 0, shifts: 0, reached: 0, trouble: 0, lost: 0 } };
  const unproven = { ...now, keepOff: new Set([...now.keepOff, end]), trials: { ...now.trials, [end]: opened } };
  return {
    steps: [
      `${opening.why ? `${opening.why} But the` : 'The'} chain has been lost past the ${cog} cog, so look on a stand. ${toldByHand(loose, electronic)}`,
      `Only where it does not get that far: ${lowerFirst(opening.action)} If it goes further, turn the screw in (clockwise) until it stops there.`,
    ],
    start: `Look on a stand. Only where it stops short, an eighth of a turn anticlockwise, then look again; keep off the ${cog} cog until the chain stays on there.`,
    verify: verifyNow(loose, { ...facts, now: unproven }),
    sense: null,
    looksAt: [end],
    keepsOff: [end],
  };
}

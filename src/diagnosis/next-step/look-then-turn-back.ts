import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import type { Cause } from '../causes.ts';
import { looseLimits } from '../now/limit-trial.ts';
import { toldByHand } from '../sentences/told-by-hand.ts';
import { opensWhereLost } from './not-settled.ts';
import type { Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { verifyNow } from './verify-now.ts';

/** The end past which a chain was ever lost and whose limit a step would open; null where there is none. */
export const opensAt = (cause: Cause, { drops }: Pick<SuggestionFacts, 'drops'>): CassetteEnd | null =>
  (['past-largest', 'past-smallest'] as const).find((end) => drops(end) > 0 && opensWhereLost(cause, new Set([end]))) ??
  null;

/**
 * Turning a limit back out past which a chain was lost: only where a look shows that it stops short. However well the shifts since went, they
 * went so with the limit as it is set now, and say nothing of it once it is opened.
 *
 * @param back the step as it is without a lost chain
 */
export function lookThenTurnBack(
  end: CassetteEnd,
  back: { readonly why: string; readonly action: string },
  facts: SuggestionFacts,
): Pick<Step, 'steps' | 'start' | 'verify'> {
  const { now, electronic } = facts;
  const cog = endWords[end];
  const opened = { ...now.trials[end], since: { asked: 0, shifts: 0, trouble: 0, lost: 0 } };
  const unproven = { ...now, keepOff: new Set([...now.keepOff, end]), trials: { ...now.trials, [end]: opened } };
  return {
    steps: [
      `${back.why} But the chain has been lost past the ${cog} cog, so look first, on a stand. ${toldByHand(looseLimits[end], electronic)}`,
      `Only where it does not get that far: ${back.action} If it goes further, turn the screw in (clockwise) until it stops there.`,
    ],
    start: `Look on a stand first. Only where it stops short, an eighth of a turn anticlockwise, then look again; keep off the ${cog} cog until the chain stays on there.`,
    verify: verifyNow(looseLimits[end], { ...facts, now: unproven }),
  };
}

import { isLoose } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { oppositeOf } from '../now/turned-towards.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { verifyStep } from './verify-step.ts';

/**
 * How the next ride shows whether a fault was mended, by the shifts that fail now: those since the last adjustment, where some went wrong
 * since and adjustments can move the fault from one place to another. Of a fault that nothing shows any more, or that stays where it is
 * whatever is turned, by all rides.
 */
export function verifyNow(fault: Cause, { seen, now }: Pick<SuggestionFacts, 'seen' | 'now'>): string {
  const { since, setting, keepOff, trials } = now;
  const failsNow = since.last !== null && setting !== 'cured' && since.seen.all.trouble > 0;
  return verifyStep(fault, failsNow && oppositeOf(fault) && !isLoose(fault) ? since.seen : seen, keepOff, trials);
}

import { isLoose } from '../cassette-ends.ts';
import { causePlace } from '../cause-place.ts';
import type { Cause } from '../causes.ts';
import { oppositeOf } from '../now/turned-towards.ts';
import { hangerIsDone } from './hanger-is-done.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { verifyStep } from './verify-step.ts';

/**
 * How the next ride shows whether a fault was mended, by the shifts that fail now: those since the last adjustment, where some went wrong
 * since and adjustments can move the fault from one place to another. Of a fault that nothing shows any more, or that stays where it is
 * whatever is turned, by all rides.
 */
export function verifyNow(
  fault: Cause,
  facts: Pick<SuggestionFacts, 'seen' | 'now' | 'seenTo' | 'foundRight'>,
): string {
  const { seen, now } = facts;
  const { since, setting, keepOff, trials } = now;
  const failsNow = since.last !== null && setting !== 'cured' && failsThere(fault, since.seen);
  const failing = failsNow && oppositeOf(fault) && !isLoose(fault) ? since.seen : seen;
  return verifyStep(fault, failing, keepOff, trials, hangerIsDone(facts));
}

/** Whether shifts went wrong in the direction in which the fault shows: what goes wrong the other way is no sign of it. */
function failsThere(fault: Cause, since: SuggestionFacts['seen']): boolean {
  const place = causePlace(fault, since);
  return (place ? since.shifts(place.direction) : since.all).trouble > 0;
}

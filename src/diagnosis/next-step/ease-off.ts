import { isLoose } from '../cassette-ends.ts';
import type { Work } from './in-order.ts';
import { nothingToTurn, type Step } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/** Hard pedalling makes the trouble, and no part. */
export const easeOff = ({ rider }: Pick<SuggestionFacts, 'rider'>): Step =>
  nothingToTurn(
    'Ease off for half a turn of the crank while shifting; no part needs to be touched.',
    rider.sentence,
    'On the next ride shift with the legs soft: the late and missed shifts should be gone.',
  );

/** Where trouble is gone with soft legs, easing off comes before any part; none for a fault that shows by lost chains or skips. */
export function easeOffBefore(
  { namesCause }: Step,
  { rider, ranked, now }: Pick<SuggestionFacts, 'rider' | 'ranked' | 'now'>,
): Work[] {
  const [{ cause }] = ranked;
  const byShifts = cause !== 'worn-drivetrain' && !isLoose(cause);
  if (!rider.goneWithSoftLegs || !namesCause || !byShifts || now.setting !== 'same') return [];
  return [
    {
      step: 'Ease off for half a turn of the crank while shifting, for a ride: under light pedalling hardly any shift went wrong. Touch a part only if shifts with soft legs fail too.',
      start: 'Nothing needs to be turned before that ride.',
    },
  ];
}

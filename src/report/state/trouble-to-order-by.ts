import { surelyInTrouble } from '../surely-in-trouble.ts';
import type { BikeState } from './bike-state.ts';

type Shown = Pick<BikeState, 'topCause' | 'skips'>;
type Counted = Shown & Pick<BikeState, 'troubleRate' | 'judgedShifts'>;

/** Whether a bike shows by its skips how bad it is: wear is likeliest, which hardly shows in any shift. */
export const showsBySkips = ({ topCause, skips }: Shown): boolean => topCause === 'worn-drivetrain' && skips > 0;

/**
 * How bad a bike is beside others: how often its shifts surely go wrong. Of a worn bike every skip counts as one more judged shift that did. Null where
 * nothing was counted. A cog that stands out does not count by itself: its few shifts would outdo the many of another bike.
 */
export function troubleToOrderBy(state: Counted): number | null {
  const { troubleRate, judgedShifts } = state;
  const skips = showsBySkips(state) ? state.skips : 0;
  const shifts = judgedShifts + skips;
  if (shifts === 0) return null;
  return surelyInTrouble({ shifts, troubleRate: ((troubleRate ?? 0) * judgedShifts + skips) / shifts });
}

import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import type { BikeState } from './bike-state.ts';

type Shown = Pick<BikeState, 'topCause' | 'skips'>;
type Counted = Shown & Pick<BikeState, 'troubleRate' | 'judgedShifts' | 'low' | 'worstCog'>;

/** Trouble by which bikes are set in order. `rate` is null where nothing was counted; `low` is the low end of its 95 % interval. */
export interface TroubleToOrderBy {
  readonly rate: number | null;
  readonly low: number;
}

/** Whether a bike shows by its skips how bad it is: wear is likeliest, which hardly shows in any shift. */
export const showsBySkips = ({ topCause, skips }: Shown): boolean => topCause === 'worn-drivetrain' && skips > 0;

/**
 * How bad a bike is beside others. Of a worn bike every skip counts as one more judged shift that went wrong; else, and then too where that is more,
 * the rate is that of the cog that stands out.
 */
export function troubleToOrderBy(state: Counted): TroubleToOrderBy {
  const { troubleRate, judgedShifts, low, worstCog, skips } = state;
  if (!showsBySkips(state)) return { rate: worstCog?.troubleRate ?? troubleRate, low };
  const trouble = (troubleRate ?? 0) * judgedShifts + skips;
  const all = judgedShifts + skips;
  return { rate: Math.max(worstCog?.troubleRate ?? 0, trouble / all), low: wilsonInterval(trouble, all).low };
}

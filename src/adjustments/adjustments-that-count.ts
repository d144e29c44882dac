import type { Bike } from '../drivetrain/bike.ts';
import type { Adjustment } from './adjustment.ts';
import { hasParameter, turnsAnything } from './doubtful-adjustment.ts';
import { inOrderOfTime } from './in-order-of-time.ts';
import { notYetLogged } from './not-yet-logged.ts';

/**
 * Adjustments that changed something on a bike with this actuation, each once and in order of time: what is entered twice, the same each time, was done once,
 * and of a part that the bike does not have nothing was done. What was only looked at changed nothing (`looksOf`).
 */
export const adjustmentsThatCount = (adjustments: readonly Adjustment[], actuation: Bike['actuation']): Adjustment[] =>
  inOrderOfTime(
    notYetLogged(
      [],
      adjustments.filter((one) => turnsAnything(one) && hasParameter(actuation, one.parameter)),
    ),
  );

import type { Bike } from '../drivetrain/bike.ts';
import type { Adjustment } from './adjustment.ts';
import { hasParameter, turnsAnything } from './doubtful-adjustment.ts';
import { inOrderOfTime } from './in-order-of-time.ts';
import { notYetLogged } from './not-yet-logged.ts';

/** A part or setting that was looked at or measured and found right: nothing was turned. Logged as an amount of 0. */
export type Look = Pick<Adjustment, 'at' | 'parameter' | 'unit'>;

/** The looks among logged entries, each once and in order of time; none at a part that a bike with this actuation does not have. */
export const looksOf = (adjustments: readonly Adjustment[], actuation: Bike['actuation']): Look[] =>
  inOrderOfTime(
    notYetLogged(
      [],
      adjustments.filter((one) => !turnsAnything(one) && hasParameter(actuation, one.parameter)),
    ),
  ).map(({ at, parameter, unit }) => ({ at, parameter, unit }));

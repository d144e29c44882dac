import type { Adjustment } from './adjustment.ts';
import { turnsAnything } from './doubtful-adjustment.ts';
import { notYetLogged } from './not-yet-logged.ts';

/** Adjustments that changed something, each once: what is entered twice, the same each time, was done once. */
export const adjustmentsThatCount = (adjustments: readonly Adjustment[]): Adjustment[] =>
  notYetLogged([], adjustments.filter(turnsAnything));

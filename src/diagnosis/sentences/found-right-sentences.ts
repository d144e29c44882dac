import type { Look } from '../../adjustments/looks.ts';
import { parameterTitle } from '../../adjustments/parameter-words.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import type { Cause } from '../causes.ts';
import { looksFor } from '../looked-for.ts';

/** What was looked at for a cause and found right, as evidence beside it; empty where nothing was. */
export const foundRightSentences = (cause: Cause, foundRight: readonly Look[]): string[] =>
  foundRight
    .filter(({ parameter }) => looksFor(parameter, cause))
    .map(({ at, parameter }) => `${parameterTitle(parameter)}: looked at on ${utcDay(at)} and found right.`);

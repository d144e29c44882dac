import { isTogether } from '../../adjustments/made-together.ts';
import { amountWords } from '../../adjustments/parameter-words.ts';
import { listed } from '../../numeric/listed.ts';
import { utcDay } from '../../numeric/moment-words.ts';

/** As much of an adjustment as names it: also one from a report. */
export interface MadeOnce {
  readonly at: string;
  readonly parameter: string;
  readonly amount: number | null;
  readonly unit: string;
  readonly group: number;
}

/**
 * An entry with what was done beside it, within a sentence.
 *
 * @param made all that stands, in order of time
 * @example 'what was done on 2026-09-04 (cable tension +3 clicks)'
 */
export const whatWasDone = (made: readonly MadeOnce[], own: MadeOnce): string =>
  `what was done on ${utcDay(own.at)} (${listed(made.filter((one) => isTogether(one, own)).map(amountWords))})`;

import type { Adjustment } from '../../adjustments/adjustment.ts';
import { isTogether } from '../../adjustments/made-together.ts';
import { amountWords } from '../../adjustments/parameter-words.ts';
import { listed } from '../../numeric/listed.ts';
import type { Cause } from '../causes.ts';
import { touches } from '../sentences/touches.ts';

/** As much of an adjustment's comparison as names it: also one from a report. */
interface Made {
  readonly at: string;
  readonly parameter: string;
  readonly amount: number | null;
  readonly unit: string;
  readonly group: number;
  readonly cancelledOut?: boolean;
}

/**
 * What a cure is credited to, within a sentence: the last thing done that touches one of the causes, with what was done beside it. What was
 * done after it is not, nor what was turned and taken back; where nothing touches them, whatever was done last.
 *
 * @param made in order of time
 * @example 'what was done on 2026-09-04 (cable tension +3 clicks)'
 */
export function curedBy(made: readonly Made[], causes: readonly Cause[]): string {
  const standing = made.filter(({ cancelledOut }) => !cancelledOut);
  const touching = ({ parameter }: Made): boolean =>
    causes.some((cause) => touches(cause, parameter as Adjustment['parameter']));
  const own = standing.findLast(touching) ?? standing.at(-1);
  if (!own) return 'what was done last';
  const together = standing.filter((one) => isTogether(one, own));
  return `what was done on ${own.at.slice(0, 10)} (${listed(together.map(amountWords))})`;
}

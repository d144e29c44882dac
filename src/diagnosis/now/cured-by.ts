import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import { isTogether } from '../../adjustments/made-together.ts';
import { amountWords } from '../../adjustments/parameter-words.ts';
import { turnedInAll } from '../../adjustments/turned-in-all.ts';
import { listed } from '../../numeric/listed.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import type { Cause } from '../causes.ts';
import { NEXT_TO_NOTHING } from '../went-well.ts';
import { goesAgainst, touchesCause } from './goes-against.ts';
import { type MadeOnce, whatWasDone } from './what-was-done.ts';

/** As much of an adjustment's comparison as names it: also one from a report. */
type Made = MadeOnce & {
  readonly cancelledOut?: boolean;
  readonly probabilityBetter?: number;
  readonly after?: { readonly troubleRate: number | null };
};

/**
 * What a cure is credited to, within a sentence: the thing done that goes against one of the causes and surely left little of the trouble, else
 * the last that goes against them, with what was done beside it and what was taken back of it since. What else was done after it is not, nor what was turned and taken back; where nothing goes against them, the last that
 * touches them, else whatever was done last.
 *
 * @param made in order of time
 * @example 'what was done on 2026-09-04 (cable tension +3 clicks)'
 */
export function curedBy(made: readonly Made[], causes: readonly Cause[]): string {
  const standing = made.filter(({ cancelledOut }) => !cancelledOut);
  const against = creditedEntry(standing, causes);
  const entry = against ?? lastTouching(standing, causes);
  if (!entry) return 'what was done last';
  const back = against ? takenBackSince(standing, against) : [];
  const words = back.map((one) => `${amountWords(one)} on ${utcDay(one.at)}`);
  return `${whatWasDone(standing, entry)}${back.length > 0 ? ` with what was taken back since (${listed(words)})` : ''}`;
}

/** The entry that a cure is credited to, by the rule of `curedBy`; null where nothing stands. */
export function curingEntry<One extends Made>(made: readonly One[], causes: readonly Cause[]): One | null {
  const standing = made.filter(({ cancelledOut }) => !cancelledOut);
  return creditedEntry(standing, causes) ?? lastTouching(standing, causes);
}

/** What goes against one of the causes and is left, the latest that surely left little of the trouble, else the last. */
function creditedEntry<One extends Made>(standing: readonly One[], causes: readonly Cause[]): One | null {
  const curing = standing.filter((one) => causes.some((cause) => goesAgainst(cause, one)));
  const against = curing.findLast(leftLittle) ?? curing.at(-1);
  return against && somethingIsLeft(standing, against) ? against : null;
}

const lastTouching = <One extends Made>(standing: readonly One[], causes: readonly Cause[]): One | null =>
  standing.findLast((one) => causes.some((cause) => touchesCause(cause, one))) ?? standing.at(-1) ?? null;

/** Whether shifting was surely better after an entry, and next to nothing went wrong any more. */
const leftLittle = ({ probabilityBetter = 0, after }: Made): boolean =>
  probabilityBetter >= DECIDED_AT && (after?.troubleRate ?? 1) <= NEXT_TO_NOTHING;

/** What was turned the other way later. */
const takenBackSince = (made: readonly MadeOnce[], own: MadeOnce): MadeOnce[] =>
  made
    .slice(made.indexOf(own) + 1)
    .filter((one) => one.parameter === own.parameter && !isTogether(one, own))
    .filter(({ amount }) => (amount ?? 0) * (own.amount ?? 0) < 0);

/** Whether the setting stands the way in which an entry turned it, all in all, or nothing was taken back. */
function somethingIsLeft(made: readonly MadeOnce[], own: MadeOnce): boolean {
  const turned = made.filter(({ parameter }) => parameter === own.parameter);
  return takenBackSince(made, own).length === 0 || turnedInAll(turned) * (own.amount ?? 0) > 0;
}

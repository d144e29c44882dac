import { helpedForSure } from '../../adjustments/helped-for-sure.ts';
import { isTogether } from '../../adjustments/made-together.ts';
import type { Cause } from '../causes.ts';
import { goesAgainst, touchesCause } from './goes-against.ts';
import { type Showed, showsTrouble } from './shifts-well.ts';
import { type MadeOnce, whatWasDone } from './what-was-done.ts';

/** As much of an adjustment's comparison as tells whether it helped: also one from a report. */
type Made = MadeOnce & Parameters<typeof helpedForSure>[0] & { readonly cancelledOut?: boolean };

/** What made shifting better for sure. */
export interface GotBetter {
  /** Within a sentence: "what was done on 2026-09-04 (cable tension +3 clicks)". */
  readonly words: string;
  /** Whether any of it goes against the fault that is likeliest. */
  readonly usualCure: boolean;
  /** Whether it was turned towards that fault: its sign may be wrong, which is said of it. */
  readonly wrongWay: boolean;
  /** Whether it is the last thing done before the moment asked for. */
  readonly last: boolean;
}

/**
 * What made shifting better for sure, the last of it up to a moment; null without any. That it did is no guess: it says so too where it is not the usual
 * cure of the fault that is named.
 *
 * @param made in order of time
 */
export function gotBetterWith(made: readonly Made[], cause: Cause, until: string): GotBetter | null {
  const before = made.filter(({ at, cancelledOut }) => !cancelledOut && Date.parse(at) <= Date.parse(until));
  const helped = before.findLast(helpedForSure);
  const last = before.at(-1);
  if (!helped || !last) return null;
  const beside = before.filter((one) => isTogether(one, helped));
  return {
    words: whatWasDone(before, helped),
    usualCure: beside.some((one) => goesAgainst(cause, one)),
    wrongWay: beside.some((one) => touchesCause(cause, one) && !goesAgainst(cause, one)),
    last: isTogether(last, helped),
  };
}

/**
 * The same of what was done last, where hardly anything went wrong since; else null.
 *
 * @param at when the last was done
 */
export function betterSince(made: readonly Made[], cause: Cause, at: string, showed: Showed): GotBetter | null {
  const better = showsTrouble(showed) ? null : gotBetterWith(made, cause, at);
  return better?.last ? better : null;
}

/**
 * What was done last, helped for sure and goes against the fault, where rides that still went wrong lie between it and the newest ones that shift well: it was the right
 * way, and left a little. Null where anything was adjusted between.
 */
export function rightWayBefore(
  made: readonly Made[],
  cause: Cause,
  { at, adjusted }: { readonly at: string; readonly adjusted: boolean },
): GotBetter | null {
  const better = adjusted ? null : gotBetterWith(made, cause, at);
  return better?.last && better.usualCure ? better : null;
}

import type { Adjustment } from './adjustment.ts';
import { adjustmentKey } from './adjustment-key.ts';
import { inOrderOfTime } from './in-order-of-time.ts';
import { turnedInAll } from './turned-in-all.ts';

/** When a ride was. `startMs`: Unix milliseconds, see `hasClock`. */
export interface RideSpan {
  readonly startMs: number;
  readonly durationS: number;
}

/**
 * The entries (by their keys) that turn a setting and take it back with no ride between: the bike was never ridden so, and there is nothing to
 * judge. Tension that is let off to set a limit and put back is one such.
 */
export function cancelledOut(adjustments: readonly Adjustment[], rides: readonly RideSpan[]): Set<string> {
  const turns = inOrderOfTime(adjustments).filter(({ amount }) => amount);
  const parameters = new Set(turns.map(({ parameter }) => parameter));
  return new Set(
    [...parameters]
      .flatMap((parameter) =>
        withoutRideBetween(
          turns.filter((one) => one.parameter === parameter),
          rides,
        ),
      )
      .filter((run) => turnedInAll(run) === 0)
      .flat()
      .map(adjustmentKey),
  );
}

/** The adjustments that are left when those are taken out. */
export function withoutCancelled(adjustments: readonly Adjustment[], rides: readonly RideSpan[]): Adjustment[] {
  const cancelled = cancelledOut(adjustments, rides);
  return adjustments.filter((one) => !cancelled.has(adjustmentKey(one)));
}

/** Turns of one setting, in order of time, those with no ride between in one list. */
function withoutRideBetween(turns: readonly Adjustment[], rides: readonly RideSpan[]): Adjustment[][] {
  const runs: Adjustment[][] = [];
  for (const turn of turns) {
    const run = runs.at(-1);
    if (run && !riddenBetween(Date.parse(run[run.length - 1].at), Date.parse(turn.at), rides)) run.push(turn);
    else runs.push([turn]);
  }
  return runs;
}

const riddenBetween = (fromMs: number, toMs: number, rides: readonly RideSpan[]): boolean =>
  fromMs < toMs && rides.some(({ startMs, durationS }) => startMs < toMs && startMs + 1000 * durationS > fromMs);

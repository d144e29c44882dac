import type { Adjustment } from '../../adjustments/adjustment.ts';
import { cassetteEnds } from '../../adjustments/end-cog-count.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { observe } from '../observed.ts';
import { anyShiftsFail, ghostsOften, skipsOften } from './fails-like.ts';

/** Where so small a share of the shifts went wrong, for sure, and nothing else did, a bike was in order. An assumption of ours. */
const IN_ORDER_BELOW = 0.08;

/**
 * The first thing that was turned after a ride, where the rides before it show a bike that shifts well: what goes wrong later may be what was
 * turned. Null where nothing was turned, or nothing shows how the bike was before.
 *
 * @param adjustments in order of time
 */
export function turnedWhileWell(
  rides: readonly DiagnosisRide[],
  adjustments: readonly Adjustment[],
  bike: { readonly cassette: readonly number[] },
): Adjustment | null {
  const placed = rides.filter(({ startMs }) => hasClock(startMs));
  const endMs = ({ startMs, durationS }: DiagnosisRide): number => startMs + durationS * 1000;
  const firstEndMs = Math.min(...placed.map(endMs));
  const turn = adjustments.find(({ at, amount }) => amount && Date.parse(at) >= firstEndMs);
  if (!turn) return null;
  const seen = observe(
    placed.filter((ride) => endMs(ride) <= Date.parse(turn.at)),
    bike,
  );
  const inOrder =
    wilsonInterval(seen.all.trouble, seen.all.shifts).high < IN_ORDER_BELOW &&
    !(anyShiftsFail(seen) || ghostsOften(seen) || skipsOften(seen)) &&
    cassetteEnds.every((end) => seen.drops(end) === 0);
  return inOrder ? turn : null;
}

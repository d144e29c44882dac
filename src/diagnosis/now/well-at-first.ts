import type { Adjustment } from '../../adjustments/adjustment.ts';
import { cassetteEnds } from '../../adjustments/end-cog-count.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { observe } from '../observed.ts';
import { PART_WENT_WELL_BELOW } from '../went-well.ts';
import { anyShiftsFail, ghostsOften, skipsOften } from './fails-like.ts';

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
    wilsonInterval(seen.all.trouble, seen.all.shifts).high < PART_WENT_WELL_BELOW &&
    !(anyShiftsFail(seen) || ghostsOften(seen) || skipsOften(seen)) &&
    cassetteEnds.every((end) => seen.drops(end) === 0);
  return inOrder ? turn : null;
}

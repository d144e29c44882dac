import type { OrderedColumns } from './merge-ties.ts';
import type { RideDraft } from './ride-draft.ts';
import type { SpeedSource } from './ride-log.ts';
import { speedFromDistance } from './speed-from-distance.ts';
import { isInKmh, kmhToMps } from './speed-unit.ts';

const countKnown = (values: Float64Array): number =>
  values.reduce((sum, value) => sum + (Number.isNaN(value) ? 0 : 1), 0);
const moves = (speed: Float64Array): boolean => speed.some((value) => value > 0);
/** Whether a sum of ways, which never falls, grows. */
function grows(wayM: Float64Array): boolean {
  const first = wayM.find((value) => !Number.isNaN(value)) ?? Number.NaN;
  return wayM.some((value) => value > first);
}

/**
 * A ride's speed and where it comes from: as recorded; else derived from distance, or from the path through positions
 * where more of that is known. Recorded speed that never leaves 0 is no speed. Warns of what was derived or converted.
 */
export function rideSpeed(
  draft: RideDraft,
  timeS: Float64Array,
  { speedMps, distanceM, pathM }: OrderedColumns,
): { speedMps: Float64Array; speedSource: SpeedSource } {
  const distances = countKnown(distanceM);
  const fromDistance = grows(distanceM) && distances >= countKnown(pathM) / 2;
  const fromPath = !fromDistance && grows(pathM);
  if (moves(speedMps)) {
    const derived = fromDistance || fromPath ? speedFromDistance(timeS, fromDistance ? distanceM : pathM) : null;
    if (derived && isInKmh(speedMps, derived)) {
      kmhToMps(speedMps);
      draft.warn('speed-unit', 'Recorded speed is 3.6 times too high for the way covered: it was read as km/h.');
    }
    return { speedMps, speedSource: draft.speedSource };
  }
  if (fromDistance) {
    draft.warn('speed-from-distance', 'No speed was recorded; it was derived from the distance.');
    return { speedMps: speedFromDistance(timeS, distanceM), speedSource: 'distance' };
  }
  if (fromPath) {
    draft.warn('speed-from-positions', 'No speed was recorded; it was derived from the positions, which is rough.');
    return { speedMps: speedFromDistance(timeS, pathM), speedSource: 'positions' };
  }
  return { speedMps, speedSource: draft.speedSource };
}

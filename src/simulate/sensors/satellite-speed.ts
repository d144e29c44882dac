import type { SeededRandom } from '../../numeric/seeded-random.ts';
import { type MechanicalTrack, TRACK_HZ } from '../mechanics/mechanical-track.ts';

/** Relative error of the speed, and how long its errors run, s. */
const RELATIVE_ERROR = 0.0115;
const RUN_S = 1.8;
/** How far the held speed strays under cover, as a part of it, in one second. */
const STRAY_PER_ROOT_S = 0.012;
const rootStepS = Math.sqrt(1 / TRACK_HZ);

/**
 * Satellite speed at the track's rate: a first-order lag behind the true speed, errors that come in runs, a floor of
 * jitter at a halt, and under cover the last speed held while it slowly strays.
 */
export function satelliteSpeed(
  track: MechanicalTrack,
  lagS: number,
  noiseScale: number,
  random: SeededRandom,
): Float64Array {
  const speed = new Float64Array(track.samples);
  const keep = Math.exp(-1 / (TRACK_HZ * Math.max(0.05, lagS)));
  const noiseKeep = Math.exp(-1 / (TRACK_HZ * RUN_S));
  const noiseStep = Math.sqrt(1 - noiseKeep * noiseKeep);
  let smooth = track.speedMps[0];
  let relative = 0;
  let floor = 0;
  for (let i = 0; i < track.samples; i++) {
    relative = noiseKeep * relative + noiseStep * random.normal();
    floor = noiseKeep * floor + noiseStep * random.normal();
    if (!track.covered[i]) smooth = track.speedMps[i] + keep * (smooth - track.speedMps[i]);
    else smooth *= 1 + STRAY_PER_ROOT_S * rootStepS * random.normal();
    const seen = smooth * (1 + RELATIVE_ERROR * noiseScale * relative) + 0.035 * noiseScale * floor;
    speed[i] = Math.max(0, seen < 0.06 ? 0 : seen);
  }
  return speed;
}

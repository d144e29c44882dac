import type { SeededRandom } from '../../numeric/seeded-random.ts';
import { type MechanicalTrack, trackHz } from '../mechanics/mechanical-track.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';

/** A halt is paused after so many seconds. */
const pauseAfterS = 8;
/** Longest silence of uneven recording, s. */
const longestGapS = 7;

/** Whole seconds at which a record was written: not during pauses, and in uneven recording only when something changed. */
export function recordingTimes(
  track: MechanicalTrack,
  options: ResolvedOptions,
  speed: Float64Array,
  cadence: Float64Array,
  random: SeededRandom,
): Float64Array {
  const kept: number[] = [];
  let haltedS = 0;
  for (let s = 0; s < speed.length; s++) {
    haltedS = track.halted[Math.min(track.samples - 1, s * trackHz)] ? haltedS + 1 : 0;
    if (options.autoPause && haltedS > pauseAfterS) continue;
    const last = kept.at(-1);
    if (options.recording === 'uneven' && last !== undefined && s - last < longestGapS) {
      const change = Math.abs(speed[s] - speed[last]) / 0.5 + Math.abs(cadence[s] - cadence[last]) / 5;
      if (!(change > 1) && !random.chance(0.25)) continue;
    }
    kept.push(s);
  }
  return Float64Array.from(kept);
}

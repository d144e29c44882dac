import type { SeededRandom } from '../../numeric/seeded-random.ts';
import { type MechanicalTrack, TRACK_HZ } from '../mechanics/mechanical-track.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';

/** A halt is paused after so many seconds. */
const PAUSE_AFTER_S = 8;
/** Longest silence of uneven recording, s. */
const LONGEST_GAP_S = 7;

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
    haltedS = track.halted[Math.min(track.samples - 1, s * TRACK_HZ)] ? haltedS + 1 : 0;
    if (options.autoPause && haltedS > PAUSE_AFTER_S) continue;
    const last = kept.at(-1);
    if (options.recording === 'uneven' && last !== undefined && s - last < LONGEST_GAP_S) {
      const change = Math.abs(speed[s] - speed[last]) / 0.5 + Math.abs(cadence[s] - cadence[last]) / 5;
      if (!(change > 1) && !random.chance(0.25)) continue;
    }
    kept.push(s);
  }
  return Float64Array.from(kept);
}

import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';

/** Habits and strength of one rider; the same in all rides of a bike. */
export interface RiderNature {
  readonly massKg: number;
  readonly dragAreaM2: number;
  readonly basePowerW: number;
  readonly cadenceRpm: number;
  /** How far cadence may stray before a shift, as a part of the step between cogs. */
  readonly tolerance: number;
  /** Part of the torque kept while a shift runs. */
  readonly easeTo: number;
  /** Seconds between the presses of a burst. */
  readonly pressIntervalS: number;
  /** Freewheeling spells a minute on level ground. */
  readonly coastsPerMinute: number;
  readonly standsPerMinute: number;
}

/** Draws a rider's habits. */
export function drawRider(rider: ResolvedOptions['rider'], random: SeededRandom): RiderNature {
  const ease = { smooth: 0.4, ordinary: random.between(0.55, 0.85), forceful: 1.15 }[rider];
  return {
    massKg: random.between(74, 112),
    dragAreaM2: random.between(0.32, 0.42),
    basePowerW: random.between(105, 190) * (rider === 'forceful' ? 1.2 : 1),
    cadenceRpm: random.between(76, 90) - (rider === 'forceful' ? 12 : 0),
    tolerance: random.between(1, 1.5),
    easeTo: ease,
    pressIntervalS: random.between(0.16, 0.34),
    coastsPerMinute: random.between(0.3, 0.9),
    standsPerMinute: random.between(0.1, 0.5) * (rider === 'forceful' ? 2 : 1),
  };
}

import { sum } from 'd3-array';
import { hasClock } from '../ride-log/has-clock.ts';
import type { PlacedRide } from './adjustment-periods.ts';

/** Skips under load, and the hours pedalled on known cogs in which they could be seen. */
export interface SkipCount {
  readonly skips: number;
  readonly hours: number;
}

/** A ride with its length, by which a part of its pedalling is told. */
export interface RiddenFor extends PlacedRide {
  readonly durationS: number;
}

/** Counts the skips from one moment on and before the other (Unix milliseconds). Of a ride that is cut, as large a part was pedalled as was ridden. */
export function countSkips(rides: readonly RiddenFor[], fromMs: number, toMs: number): SkipCount {
  const counts = rides
    .filter(({ startMs }) => hasClock(startMs))
    .map(({ startMs, durationS, events: { skips, pedallingSByCog } }) => {
      const [from, to] = [fromMs, toMs].map((ms) => (ms - startMs) / 1000);
      const within = Math.min(durationS, to) - Math.max(0, from);
      return {
        skips: skips.filter(({ timeS }) => timeS >= from && timeS < to).length,
        pedalledS: within > 0 ? (sum(pedallingSByCog) * within) / durationS : 0,
      };
    });
  return { skips: sum(counts, ({ skips }) => skips), hours: sum(counts, ({ pedalledS }) => pedalledS) / 3600 };
}

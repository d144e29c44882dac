import { sum } from 'd3-array';
import type { RideEvents } from '../shifts/ride-events.ts';

/** Skips under load, and the hours pedalled on known cogs in which they could be seen. */
export interface SkipCount {
  readonly skips: number;
  readonly hours: number;
}

/** Counts the skips of rides, or parts of them. */
export const countSkips = (ridden: readonly Pick<RideEvents, 'skips' | 'pedallingSByCog'>[]): SkipCount => ({
  skips: sum(ridden, ({ skips }) => skips.length),
  hours: sum(ridden, ({ pedallingSByCog }) => sum(pedallingSByCog)) / 3600,
});

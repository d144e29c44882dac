import { sum } from 'd3-array';
import type { RideEvents } from '../shifts/ride-events.ts';

/** Skips seen on one cog, and how long it was pedalled on. `cog` is a cassette index (0 = smallest). */
export interface SkipTally {
  readonly cog: number;
  readonly skips: number;
  readonly pedallingS: number;
}

/** Skips of one or many rides by cog, for every cog of the cassette, smallest first. One on a cog that is not known belongs to none. */
export function tallySkips(
  rides: readonly Pick<RideEvents, 'skips' | 'pedallingSByCog'>[],
  cassetteLength: number,
): SkipTally[] {
  return Array.from({ length: cassetteLength }, (_, cog) => ({
    cog,
    skips: sum(rides, ({ skips }) => skips.filter((skip) => skip.cog === cog).length),
    pedallingS: sum(rides, ({ pedallingSByCog }) => pedallingSByCog[cog] ?? 0),
  }));
}

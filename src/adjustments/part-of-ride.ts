import { hasClock } from '../ride-log/has-clock.ts';
import type { RideEvents } from '../shifts/ride-events.ts';
import type { PlacedRide } from './adjustment-periods.ts';

/** A ride with its length, by which a part of its pedalling is told. */
export interface RiddenFor extends PlacedRide {
  readonly durationS: number;
}

/** The rides that have a date: the others lie neither before nor after a moment. */
export const dated = <Ride extends RiddenFor>(rides: readonly Ride[]): Ride[] =>
  rides.filter(({ startMs }) => hasClock(startMs));

/** What happened in a dated ride from one moment on and before the other (Unix milliseconds). Of a ride that is cut, as large a part was pedalled as was ridden. */
export function partOfRide({ startMs, durationS, events }: RiddenFor, fromMs: number, toMs: number): RideEvents {
  const [fromS, toS] = [fromMs, toMs].map((ms) => (ms - startMs) / 1000);
  const isWithin = ({ timeS }: { readonly timeS: number }): boolean => timeS >= fromS && timeS < toS;
  const withinS = Math.max(0, Math.min(durationS, toS) - Math.max(0, fromS));
  const part = withinS < durationS ? withinS / durationS : 1;
  return {
    ...events,
    shifts: events.shifts.filter(isWithin),
    ghostShifts: events.ghostShifts.filter(isWithin),
    chainDrops: events.chainDrops.filter(isWithin),
    skips: events.skips.filter(isWithin),
    pedallingSByCog: events.pedallingSByCog.map((seconds) => seconds * part),
    ...(events.watchedSByCog && { watchedSByCog: events.watchedSByCog.map((seconds) => seconds * part) }),
  };
}

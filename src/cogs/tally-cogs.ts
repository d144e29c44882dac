import { wilsonInterval } from '../numeric/wilson-interval.ts';
import type { Direction, RideEvents } from '../shifts/ride-events.ts';
import type { CogTally } from './cog-tally.ts';

interface OpenTally {
  shifts: number;
  late: number;
  missed: number;
  overshot: number;
  ghostShifts: number;
}

const emptyTally = (): OpenTally => ({ shifts: 0, late: 0, missed: 0, overshot: 0, ghostShifts: 0 });

function close(cog: number, direction: Direction, open: OpenTally): CogTally {
  const trouble = open.late + open.missed + open.overshot;
  return { cog, direction, ...open, troubleRate: trouble / open.shifts, ...wilsonInterval(trouble, open.shifts) };
}

/**
 * Tallies of one or many rides by target cog and direction, for every cog of the cassette in both directions where the
 * chain can arrive that way (nothing arrives on the smallest cog to-larger), smallest cog first, `to-larger` before
 * `to-smaller`. Unjudged shifts do not count. No rides: all zero, rate NaN, interval 0 to 1.
 */
export function tallyCogs(events: readonly RideEvents[], cassetteLength: number): CogTally[] {
  const larger = Array.from({ length: cassetteLength }, emptyTally);
  const smaller = Array.from({ length: cassetteLength }, emptyTally);
  for (const ride of events) {
    for (const shift of ride.shifts) {
      if (shift.outcome === 'unjudged') continue;
      const open = (shift.direction === 'to-larger' ? larger : smaller)[shift.toCog];
      if (!open) continue;
      open.shifts++;
      if (shift.outcome !== 'clean') open[shift.outcome]++;
    }
    for (const ghost of ride.ghostShifts) {
      const open = (ghost.toCog > ghost.fromCog ? larger : smaller)[ghost.toCog];
      if (open) open.ghostShifts++;
    }
  }
  return Array.from({ length: cassetteLength }, (_, cog) => [
    ...(cog > 0 ? [close(cog, 'to-larger', larger[cog])] : []),
    ...(cog < cassetteLength - 1 ? [close(cog, 'to-smaller', smaller[cog])] : []),
  ]).flat();
}

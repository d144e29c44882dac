import { maxIndex, range } from 'd3-array';
import type { Direction } from '../shifts/ride-events.ts';
import type { Cause } from './causes.ts';
import { smallGapBreadth } from './imagined-bike/faulty-setup.ts';
import { lateOrMissed, type Observed, type ShiftCount } from './observed.ts';

/** Share of the cassette below the cogs that a small gap troubles as a rule. */
const USUAL_GAP_FROM = 0.7;

/** Shifts in a direction onto a run of cogs (cassette indexes, both ends counted in). */
export interface CausePlace {
  readonly direction: Direction;
  readonly from: number;
  readonly to: number;
}

/** Where a cause shows by late and missed shifts; null where it shows by no such place. */
export function causePlace(cause: Cause, seen: Observed): CausePlace | null {
  const last = seen.cassette.length - 1;
  switch (cause) {
    case 'cable-tension-low':
      return { direction: 'to-larger', from: 1, to: last };
    case 'cable-tension-high':
    case 'cable-friction':
      return { direction: 'to-smaller', from: 0, to: last - 1 };
    case 'low-limit-tight':
      return { direction: 'to-larger', from: last, to: last };
    case 'high-limit-tight':
      return { direction: 'to-smaller', from: 0, to: 0 };
    case 'pulley-gap-small':
      return { direction: 'to-larger', from: gapFrom(seen), to: last };
    default:
      return null;
  }
}

/** How the shifts of a place went. */
export const shiftsAt = (seen: Observed, { direction, from, to }: CausePlace): ShiftCount =>
  seen.shifts(direction, (cog) => cog >= from && cog <= to);

/** How the other shifts in the direction of a place went. */
export const shiftsBeside = (seen: Observed, { direction, from, to }: CausePlace): ShiftCount =>
  seen.shifts(direction, (cog) => cog < from || cog > to);

/** By how many standard errors the rate of late and missed shifts lies above another (two proportions, pooled); 0 with nothing to compare. */
export function excess(there: ShiftCount, elsewhere: ShiftCount): number {
  const pooled = (lateOrMissed(there) + lateOrMissed(elsewhere)) / (there.shifts + elsewhere.shifts);
  const error = Math.sqrt(pooled * (1 - pooled) * (1 / there.shifts + 1 / elsewhere.shifts));
  const above = lateOrMissed(there) / there.shifts - lateOrMissed(elsewhere) / elsewhere.shifts;
  return error > 0 && Number.isFinite(error) ? above / error : 0;
}

/** First cog that a small gap seems to trouble: how far it reaches differs, so it is where the counts part best. */
function gapFrom(seen: Observed): number {
  const { length } = seen.cassette;
  const excessFrom = (from: number): number => {
    const place: CausePlace = { direction: 'to-larger', from, to: length - 1 };
    return excess(shiftsAt(seen, place), shiftsBeside(seen, place));
  };
  const splits = range(Math.ceil(length * (1 - smallGapBreadth[1])), length - 1);
  const best = splits[maxIndex(splits, excessFrom)];
  return excessFrom(best) > 0 ? best : Math.ceil(length * USUAL_GAP_FROM);
}

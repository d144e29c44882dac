import { failsForSure, LEAST_TROUBLE } from '../../adjustments/fails-for-sure.ts';
import { directions } from '../../cogs/directions.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import { causePlace, shiftsAt } from '../cause-place.ts';
import type { Cause } from '../causes.ts';
import type { Observed, ShiftCount } from '../observed.ts';
import type { SeenSince } from './seen-since.ts';

/** More unasked shifts or skips an hour than this are no slip of the sensors. An assumption of ours. */
const OFTEN_PER_HOUR = 1;

const often = (count: number, { pedallingHours }: Observed): boolean =>
  count >= LEAST_TROUBLE && count > OFTEN_PER_HOUR * pedallingHours;

/** Whether shifts fail in one direction, or on one cog, since a fault at an end cog is lost among all shifts. */
export const anyShiftsFail = (seen: Observed): boolean =>
  directions.some(
    (direction) =>
      failsForSure(seen.shifts(direction)) ||
      seen.cassette.some((_, own) => failsForSure(seen.shifts(direction, (cog) => cog === own))),
  );

/** Whether the chain moves by itself time and again in one direction. */
export const ghostsOften = (seen: Observed): boolean =>
  directions.some((direction) => often(seen.ghosts(direction), seen));

/** Whether the chain skips time and again. */
export const skipsOften = (seen: Observed): boolean => often(seen.skips(), seen);

/** Whether shifts in one direction fail, and no less often than those in the other. */
function failsMostly(seen: Observed, slow: Direction): boolean {
  const own = seen.shifts(slow);
  const other = seen.shifts(slow === 'to-larger' ? 'to-smaller' : 'to-larger');
  const rate = ({ trouble, shifts }: ShiftCount): number => trouble / Math.max(1, shifts);
  return failsForSure(own) && rate(own) >= rate(other);
}

/** Whether what was seen fails in the way that a cause makes it fail. */
export function failsLike(cause: Cause, { seen, lost }: Pick<SeenSince, 'seen' | 'lost'>): boolean {
  switch (cause) {
    case 'no-fault':
      return false;
    case 'cable-tension-low':
      return failsMostly(seen, 'to-larger') || often(seen.ghosts('to-smaller'), seen);
    case 'cable-tension-high':
      return failsMostly(seen, 'to-smaller') || often(seen.ghosts('to-larger'), seen);
    case 'low-limit-loose':
      return lost('past-largest') > 0;
    case 'high-limit-loose':
      return lost('past-smallest') > 0;
    case 'pulley-gap-large':
    case 'hanger-bent':
      return anyShiftsFail(seen);
    case 'worn-drivetrain':
      return skipsOften(seen);
    case 'low-limit-tight':
    case 'high-limit-tight':
    case 'pulley-gap-small':
    case 'cable-friction': {
      const place = causePlace(cause, seen);
      return place !== null && failsForSure(shiftsAt(seen, place));
    }
  }
}

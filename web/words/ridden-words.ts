import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary } from '../api/answers.ts';
import { day } from './dates.ts';

type Ridden = Pick<BikeSummary, 'rides' | 'lastRideAt' | 'pending'>;

/** When a bike was last ridden. A ride whose log holds no clock is one all the same, and one that waits may have one. */
export function lastRideWords({ rides, lastRideAt, pending }: Ridden): string {
  if (lastRideAt) return day(lastRideAt);
  if (rides === 0) return 'no ride yet';
  return pending > 0 ? 'not known yet' : 'day not recorded';
}

/** How often a bike was ridden, and when last. */
export function riddenWords(ridden: Ridden): string {
  if (ridden.rides === 0) return lastRideWords(ridden);
  const rides = counted(ridden.rides, 'ride');
  if (ridden.lastRideAt) return `${rides}, last ${lastRideWords(ridden)}`;
  return ridden.pending > 0 ? rides : `${rides}, ${lastRideWords(ridden)}`;
}

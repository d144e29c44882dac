import type { Adjustment } from '../../adjustments/adjustment.ts';
import { tallyCogs } from '../../cogs/tally-cogs.ts';
import type { Bike } from '../../drivetrain/bike.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { DiagnosisRide, ShiftsWellSince } from '../diagnosis.ts';
import { type Observed, observe } from '../observed.ts';

/** With trouble this rare, for sure, and nothing else amiss, a part is better left alone whatever the timing hints at. An assumption of ours. */
const HARDLY_ANY = 0.02;
/** After a change that took away most trouble, rarer than this for sure will do: a single late shift is no fault. An assumption of ours. */
const FEW = 0.05;
/** So much trouble must be missing that no trouble at all would be chance in less than one of twenty cases (Poisson). */
const MISSING_TROUBLE = 3;

/** True where hardly any shift went wrong, for sure (a smaller share than `below`), and nothing else did. */
export function shiftsWell({ all, events }: Pick<Observed, 'all' | 'events'>, below = HARDLY_ANY): boolean {
  return events === 0 && wilsonInterval(all.trouble, all.shifts).high < below;
}

/**
 * From when on a bike shifts well that did not before: the longest run of newest rides that show hardly any trouble, each of them
 * and all together, where the rides before them lead to expect plenty. Null where there is no such run, where one would be too
 * short to tell, or where a ride has no clock.
 *
 * @param rides as they were weighed, in order of time
 */
export function shiftsWellSince(
  rides: readonly DiagnosisRide[],
  adjustments: readonly Pick<Adjustment, 'at'>[],
  bike: Pick<Bike, 'cassette'>,
): ShiftsWellSince | null {
  if (!rides.every(({ startMs }) => hasClock(startMs))) return null;
  let from = rides.length;
  for (let i = rides.length - 1; i >= 0; i--) {
    const own = observe([rides[i]], bike);
    if (own.events > 0 || wilsonInterval(own.all.trouble, own.all.shifts).low >= HARDLY_ANY) break;
    if (shiftsWell(observe(rides.slice(i), bike), FEW)) from = i;
  }
  const [earlier, newest] = [rides.slice(0, from), rides.slice(from)];
  if (earlier.length === 0 || newest.length === 0) return null;
  const { shifts, trouble } = observe(newest, bike).all;
  if (troubleToExpect(earlier, newest, bike.cassette.length) < MISSING_TROUBLE * (1 + trouble)) return null;
  const before = (earlier.at(-1) as DiagnosisRide).startMs;
  const at = newest[0].startMs;
  return {
    at: new Date(at).toISOString(),
    shifts,
    trouble,
    adjusted: adjustments.some((one) => Date.parse(one.at) > before && Date.parse(one.at) <= at),
  };
}

/** How many of the newer shifts would have gone wrong if each cog and direction had kept its rate. */
function troubleToExpect(
  earlier: readonly DiagnosisRide[],
  newest: readonly DiagnosisRide[],
  cassetteLength: number,
): number {
  const tally = (rides: readonly DiagnosisRide[]) =>
    tallyCogs(
      rides.map(({ events }) => events),
      cassetteLength,
    );
  const now = new Map(tally(newest).map((one) => [`${one.cog} ${one.direction}`, one.shifts]));
  return tally(earlier).reduce((sum, { cog, direction, shifts, late, missed, overshot }) => {
    const rate = shifts > 0 ? (late + missed + overshot) / shifts : 0;
    return sum + rate * (now.get(`${cog} ${direction}`) ?? 0);
  }, 0);
}

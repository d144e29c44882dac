import type { Adjustment } from '../../adjustments/adjustment.ts';
import { tallyCogs } from '../../cogs/tally-cogs.ts';
import type { Bike } from '../../drivetrain/bike.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import { type CausePlace, causePlace } from '../cause-place.ts';
import type { Cause } from '../causes.ts';
import type { DiagnosisRide, ShiftsWellSince } from '../diagnosis.ts';
import { type Observed, observe } from '../observed.ts';
import { touches } from '../sentences/touches.ts';
import { LEFT_ALONE_BELOW, WENT_WELL_BELOW } from '../went-well.ts';
import { oppositeOf, turnedTowards } from './turned-towards.ts';

/** So much trouble must be missing that no trouble at all would be chance in less than one of twenty cases (Poisson). */
const MISSING_TROUBLE = 3;
/** One of a hundred, to say that something was put right of which the log holds nothing: its moment is looked for. */
const MISSING_FOR_REPAIR = 4.6;
/** From this probability of any fault on there was something to put right. An assumption of ours. */
const SURE_OF_A_FAULT = 0.8;

/** True where hardly any shift went wrong, for sure (a smaller share than `below`), and nothing else did. */
export function shiftsWell({ all, events }: Pick<Observed, 'all' | 'events'>, below = LEFT_ALONE_BELOW): boolean {
  return events === 0 && wilsonInterval(all.trouble, all.shifts).high < below;
}

/** What rides showed, as plain facts. */
export interface Showed {
  readonly all: { readonly shifts: number; readonly trouble: number };
  /** Unasked shifts, lost chains and skips. */
  readonly events: number;
}

/** Whether more than hardly any shift went wrong, for sure, or anything else did. */
export const showsTrouble = ({ all, events }: Showed): boolean =>
  events > 0 || wilsonInterval(all.trouble, all.shifts).low >= LEFT_ALONE_BELOW;

/** What was likeliest wrong, as far as it tells where better shifting has to show. */
interface FaultBefore {
  /** `no-fault` shows nowhere. */
  readonly cause: Cause;
  /** Probability of any fault. */
  readonly anyFault: number;
}

/**
 * From when on a bike shifts well that did not before: the longest run of newest rides that show hardly any trouble, each of them
 * and all together, where the rides before them lead to expect plenty on the cogs and in the direction where the likeliest fault shows. Null
 * where there is no such run, where one would be too short to tell, or where a ride has no clock.
 *
 * @param rides as they were weighed, in order of time
 */
export function shiftsWellSince(
  rides: readonly DiagnosisRide[],
  adjustments: readonly Adjustment[],
  bike: Pick<Bike, 'cassette'>,
  { cause, anyFault }: FaultBefore,
): ShiftsWellSince | null {
  if (!rides.every(({ startMs }) => hasClock(startMs))) return null;
  const place = causePlace(cause, observe(rides, bike));
  const inPlace = rides.map((ride) => onlyIn(place, ride));
  const from = firstOfWellRides(rides, inPlace, bike);
  const [earlier, newest] = [rides.slice(0, from), rides.slice(from)];
  if (earlier.length === 0 || newest.length === 0) return null;
  const there = observe(inPlace.slice(from), bike).all;
  const expected = troubleToExpect(inPlace.slice(0, from), inPlace.slice(from), bike.cassette.length);
  const putRight = cause !== 'no-fault' && anyFault >= SURE_OF_A_FAULT;
  const before = (earlier.at(-1) as DiagnosisRide).startMs;
  const at = newest[0].startMs;
  const between = adjustments.filter((one) => Date.parse(one.at) > before && Date.parse(one.at) <= at);
  const entryAt = lastAgainst(cause, between);
  const missing = putRight && !entryAt ? MISSING_FOR_REPAIR : MISSING_TROUBLE;
  if (expected < missing * (1 + there.trouble)) return null;
  const { shifts, trouble } = observe(newest, bike).all;
  return {
    ...{ at: new Date(at).toISOString(), shifts, trouble },
    there: { shifts: there.shifts, trouble: there.trouble },
    putRight,
    adjusted: between.length > 0,
    entryAt,
  };
}

/** Index of the first of the newest rides that shift well, where the fault shows too; their number where the newest does not. */
function firstOfWellRides(
  rides: readonly DiagnosisRide[],
  inPlace: readonly DiagnosisRide[],
  bike: Pick<Bike, 'cassette'>,
): number {
  const fails = (ride: DiagnosisRide): boolean => showsTrouble(observe([ride], bike));
  let from = rides.length;
  for (let i = rides.length - 1; i >= 0; i--) {
    if (fails(rides[i]) || fails(inPlace[i])) break;
    if (shiftsWell(observe(rides.slice(i), bike), WENT_WELL_BELOW)) from = i;
  }
  return from;
}

/** Time of the last adjustment that goes against a fault: its setting turned the other way, all in all, or the part seen to; null where none does. */
function lastAgainst(cause: Cause, adjustments: readonly Adjustment[]): string | null {
  const opposite = oppositeOf(cause);
  const turned = opposite ? turnedTowards(opposite, adjustments) : null;
  const done = adjustments.findLast(({ amount, parameter }) => amount === null && touches(cause, parameter));
  return turned?.lastAt ?? done?.at ?? null;
}

/** A ride with the shifts of a place alone; with all of them where there is none. */
function onlyIn(place: CausePlace | null, ride: DiagnosisRide): DiagnosisRide {
  if (!place) return ride;
  const shifts = ride.events.shifts.filter(
    ({ direction, toCog }) => direction === place.direction && toCog >= place.from && toCog <= place.to,
  );
  return { ...ride, events: { ...ride.events, shifts } };
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

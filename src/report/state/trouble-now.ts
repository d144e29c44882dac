import { sum } from 'd3-array';
import type { PlacedRide } from '../../adjustments/adjustment-periods.ts';
import { tallyTrouble } from '../../cogs/trouble-tally.ts';
import { FEWEST_SHIFTS } from '../../diagnosis/fewest-shifts.ts';
import { suddenStartMs } from '../../diagnosis/posterior/onset.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { standingAdjustments } from '../standing-adjustments.ts';
import { whichCauses } from '../which-causes.ts';

/** From when on shifts count for a bike's rate of trouble. */
export const troubleSince = ['first-ride', 'last-adjustment', 'onset'] as const;

/** How often shifts went wrong on a bike as it is now. Judged shifts only; the rate is null without any, `low` and `high` bound its 95 % interval. */
export interface TroubleNow {
  readonly since: (typeof troubleSince)[number];
  /** ISO time of that moment; null for `first-ride`. */
  readonly sinceAt: string | null;
  /** Rides in which the shifts were made. */
  readonly rides: number;
  readonly shifts: number;
  readonly count: number;
  readonly rate: number | null;
  readonly low: number;
  readonly high: number;
}

/**
 * The one rule for what a bike's rate of trouble counts: the judged shifts since the last adjustment that was ridden on, or since a
 * fault began suddenly, whichever is later. Where fewer than `FEWEST_SHIFTS` were judged since, the moment before it counts, else all
 * rides. Shifts from before are those of another bike, as it were.
 *
 * @param rides those that count for the bike; what has no date counts only among all rides
 */
export function troubleNow(report: Report, rides: readonly PlacedRide[]): TroubleNow {
  const moments = [...adjusted(report), beganSuddenly(report)].filter((moment) => moment !== null);
  for (const moment of moments.sort((a, b) => Date.parse(b.sinceAt) - Date.parse(a.sinceAt))) {
    const found = judgedFrom(rides, Date.parse(moment.sinceAt));
    if (found.shifts >= FEWEST_SHIFTS) return { ...moment, ...found };
  }
  return { since: 'first-ride', sinceAt: null, ...overAllRides(report) };
}

const adjusted = (report: Report) =>
  standingAdjustments(report).map(
    ({ at }) => ({ since: 'last-adjustment', sinceAt: new Date(at).toISOString() }) as const,
  );

function beganSuddenly({ diagnosis }: Report) {
  const { onset } = whichCauses(diagnosis).now;
  return Number.isFinite(suddenStartMs(onset)) && onset.at !== null
    ? ({ since: 'onset', sinceAt: onset.at } as const)
    : null;
}

type Tally = Pick<Report['cogs'][number], 'shifts' | 'late' | 'missed' | 'overshot'>;
type Counted = Pick<TroubleNow, 'rides' | 'shifts' | 'count' | 'rate' | 'low' | 'high'>;

/** What the tallies of so many rides come to. */
function counted(rides: number, tallies: readonly Tally[]): Counted {
  const shifts = sum(tallies, (tally) => tally.shifts);
  const count = sum(tallies, ({ late, missed, overshot }) => late + missed + overshot);
  return { rides, shifts, count, rate: shifts > 0 ? count / shifts : null, ...wilsonInterval(count, shifts) };
}

function judgedFrom(rides: readonly PlacedRide[], fromMs: number): Counted {
  const perRide = rides
    .filter(({ startMs }) => hasClock(startMs))
    .map(({ startMs, events }) => events.shifts.filter(({ timeS }) => startMs + timeS * 1000 >= fromMs))
    .map((shifts) => tallyTrouble({ shifts, ghostShifts: [] }))
    .filter(({ shifts }) => shifts > 0);
  return counted(perRide.length, perRide);
}

function overAllRides(report: Report): Counted {
  return counted(ridesThatCount(report).filter(({ counts }) => counts.shifts > counts.unjudged).length, report.cogs);
}

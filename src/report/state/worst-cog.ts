import type { PlacedRide } from '../../adjustments/adjustment-periods.ts';
import { tallyCogs } from '../../cogs/tally-cogs.ts';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import { cogReport } from '../cog-report.ts';
import type { CogReport, Report } from '../report-schema.ts';
import { bySurestTrouble, surelyInTrouble } from '../surely-in-trouble.ts';
import type { TroubleNow } from './trouble-now.ts';

/** The cog and direction whose shifts go wrong clearly more often than those of the whole bike. Judged shifts only. */
export type WorstCog = Pick<CogReport, 'teeth' | 'direction' | 'shifts' | 'low' | 'high'> & {
  readonly troubleRate: number;
};

/**
 * The cog that stands out of what a bike's rate of trouble counts: its shifts surely go wrong more often than those of the whole bike may. Of several
 * the one whose do so most; null where none stands out, since then the whole says more.
 *
 * @param rides those that count for the bike, with all their shifts
 */
export function worstCog(report: Report, rides: readonly PlacedRide[], whole: TroubleNow): WorstCog | null {
  const [worst] = cogsSince(report, rides, whole.sinceAt)
    .filter((cog) => cog.shifts >= SAY_LITTLE && surelyInTrouble(cog) > whole.high)
    .sort(bySurestTrouble);
  if (!worst || worst.troubleRate === null) return null;
  const { teeth, direction, shifts, troubleRate, low, high } = worst;
  return { teeth, direction, shifts, troubleRate, low, high };
}

/** The cogs' tallies from a moment on (ISO time; null: over all rides), as `troubleNow` counts. */
function cogsSince(report: Report, rides: readonly PlacedRide[], sinceAt: string | null): readonly CogReport[] {
  if (sinceAt === null) return report.cogs;
  const fromMs = Date.parse(sinceAt);
  const since = rides
    .filter(({ startMs }) => hasClock(startMs))
    .map(({ startMs, events }) => ({
      ...events,
      shifts: events.shifts.filter(({ timeS }) => startMs + timeS * 1000 >= fromMs),
    }));
  return tallyCogs(since, report.bike.cassette.length).map((tally) => cogReport(tally, report.bike));
}

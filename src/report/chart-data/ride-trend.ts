import { adjustmentWords } from '../../adjustments/parameter-words.ts';
import { utcDay, utcMoment } from '../../numeric/moment-words.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { RideTrend } from '../charts/ride-trend-chart.ts';
import type { Report } from '../report-schema.ts';
import { rideTrouble } from '../ride-trouble.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { ridesBefore } from './rides-before.ts';

/** The rides of a report that count, in order of time with their rate of trouble, and the adjustments between them. */
export function rideTrend(report: Pick<Report, 'rides' | 'adjustments'>): RideTrend {
  const numbered = report.rides.map((ride, i) => ({ ...ride, number: i + 1 }));
  const counting = ridesThatCount({ rides: numbered });
  const rides = counting.map(({ start, counts, number }) => ({
    label: hasClock(Date.parse(start)) ? utcDay(start) : `ride ${number}`,
    ...rideTrouble(counts),
  }));
  const starts = counting.map(({ start }) => start);
  const adjustments = report.adjustments.map((made) => ({
    beforeRide: ridesBefore(starts, made.at),
    words: `${utcMoment(made.at)}: ${adjustmentWords(made)}`,
  }));
  return { rides, adjustments };
}

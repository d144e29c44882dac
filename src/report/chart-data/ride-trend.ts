import { adjustmentWords } from '../../adjustments/parameter-words.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { RideTrend } from '../charts/ride-trend-chart.ts';
import type { Report } from '../report-schema.ts';
import { rideTrouble } from '../ride-trouble.ts';
import { utcDayAndTime } from '../words/moment-words.ts';
import { ridesBefore } from './rides-before.ts';

/** A report's rides in order of time with their rate of trouble, and the adjustments between them. */
export function rideTrend(report: Pick<Report, 'rides' | 'adjustments'>): RideTrend {
  const rides = report.rides.map(({ start, counts }, i) => ({
    label: hasClock(Date.parse(start)) ? start.slice(0, 10) : `ride ${i + 1}`,
    ...rideTrouble(counts),
  }));
  const starts = report.rides.map(({ start }) => start);
  const adjustments = report.adjustments.map((made) => ({
    beforeRide: ridesBefore(starts, made.at),
    words: `${utcDayAndTime(made.at)}: ${adjustmentWords(made)}`,
  }));
  return { rides, adjustments };
}

import { adjustmentWords } from '../../adjustments/parameter-words.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { RideTrend } from '../charts/ride-trend-chart.ts';
import type { Report } from '../report-schema.ts';
import { dayAndTime } from '../words/moment-words.ts';

/** A report's rides in order of time with their rate of trouble, and the adjustments between them. */
export function rideTrend(report: Pick<Report, 'rides' | 'adjustments'>): RideTrend {
  const rides = report.rides.map((ride, i) => {
    const { shifts, unjudged, late, missed, overshot } = ride.counts;
    const judged = shifts - unjudged;
    const trouble = late + missed + overshot;
    return {
      label: hasClock(Date.parse(ride.start)) ? ride.start.slice(0, 10) : `ride ${i + 1}`,
      shifts: judged,
      troubleRate: judged === 0 ? null : trouble / judged,
      ...wilsonInterval(trouble, judged),
    };
  });
  const adjustments = report.adjustments.map((made) => ({
    beforeRide: report.rides.filter((ride) => Date.parse(ride.start) < Date.parse(made.at)).length,
    words: `${dayAndTime(made.at)}: ${adjustmentWords(made)}`,
  }));
  return { rides, adjustments };
}

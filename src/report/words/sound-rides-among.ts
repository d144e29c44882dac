import { suddenStartMs } from '../../diagnosis/posterior/onset.ts';
import { figure } from '../../numeric/figure.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import type { ReportInShort } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';

type Spoken = {
  readonly diagnosis: Pick<ReportInShort['diagnosis'], 'onset'>;
  readonly rides: readonly Pick<ReportInShort['rides'][number], 'start' | 'durationS' | 'leftOut'>[];
};

/**
 * Says that figures over all rides count those from before a fault began suddenly too; empty where none are.
 *
 * @example 'Counts 1 of 3 rides from before the fault began.'
 */
export function soundRidesAmong(report: Spoken): string {
  const beganMs = suddenStartMs(report.diagnosis.onset);
  const rides = ridesThatCount(report);
  const earlier = rides.filter(({ start, durationS }) => {
    const startMs = Date.parse(start);
    return hasClock(startMs) && startMs + durationS * 1000 <= beganMs;
  });
  if (earlier.length === 0) return '';
  return `Of the ${figure(rides.length)} rides counted here ${figure(earlier.length)} ${earlier.length === 1 ? 'is' : 'are'} from before the fault began.`;
}

import { counted } from '../numeric/counted.ts';
import type { SkipCount } from './count-skips.ts';

/** "the chain skipped 2 times in 2.7 hours of pedalling before, 0 times in 1.3 hours since". */
export const skipsBeforeAndAfter = ({
  before,
  after,
}: {
  readonly before: SkipCount;
  readonly after: SkipCount;
}): string =>
  `the chain skipped ${counted(before.skips, 'time')} in ${before.hours.toFixed(1)} hours of pedalling before, ${counted(after.skips, 'time')} in ${after.hours.toFixed(1)} hours since`;

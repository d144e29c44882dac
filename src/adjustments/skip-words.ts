import { counted } from '../numeric/counted.ts';
import { figure } from '../numeric/figure.ts';
import type { SkipCount } from './count-skips.ts';

/** Most skips happen at a crawl and leave no mark in a log: that none was seen is no proof that there was none. */
export const MOST_SKIPS_UNSEEN =
  'Most skips leave no mark in a log: if you felt the chain slip, go by that, and measure chain and cogs.';

/** "2 skips seen in 2.7 hours of pedalling before, 0 in 1.3 hours since". */
export const skipsBeforeAndAfter = ({
  before,
  after,
}: {
  readonly before: SkipCount;
  readonly after: SkipCount;
}): string =>
  `${counted(before.skips, 'skip')} seen in ${before.hours.toFixed(1)} hours of pedalling before, ${figure(after.skips)} in ${after.hours.toFixed(1)} hours since`;

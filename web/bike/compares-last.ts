import { standingAdjustments } from '../../src/report/standing-adjustments.ts';
import type { BikeDetail } from '../api/answers.ts';

/** Whether any shift was judged before the last adjustment, so that what is since can be compared with it. */
export function comparesLast(report: BikeDetail['report']): boolean {
  const last = report ? standingAdjustments(report).at(-1) : undefined;
  return last?.cogs.some(({ before }) => before.shifts > 0) ?? false;
}

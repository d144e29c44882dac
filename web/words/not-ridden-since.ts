import type { BikeSummary } from '../api/answers.ts';
import { day } from './dates.ts';

/** That a bike was worked on after its newest ride, so that no ride shows what came of it; null where one does, and where no ride is dated. */
export function notRiddenSince({
  lastRideAt,
  adjustmentMarks,
}: Pick<BikeSummary, 'lastRideAt' | 'adjustmentMarks'>): string | null {
  if (lastRideAt === null || adjustmentMarks.length === 0) return null;
  const workedAtMs = Math.max(...adjustmentMarks.map(({ at }) => Date.parse(at)));
  return workedAtMs > Date.parse(lastRideAt)
    ? `Worked on ${day(new Date(workedAtMs).toISOString())}, not ridden since.`
    : null;
}

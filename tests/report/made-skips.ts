import { poissonInterval } from '../../src/numeric/poisson-interval.ts';
import type { CogSkips } from '../../src/report/report-schema.ts';

/** Skips on one cog in so many hours of pedalling, as a report has them. */
export function skipped(teeth: number, skips: number, hours: number): CogSkips {
  const { low, high } = poissonInterval(skips);
  const anHour = (count: number): number | null => (hours > 0 ? count / hours : null);
  return { teeth, skips, pedallingS: hours * 3600, perHour: anHour(skips), low: anHour(low), high: anHour(high) };
}

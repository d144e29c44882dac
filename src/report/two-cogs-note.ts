import { twoCogsOneCount } from '../gear-trace/disagreement/two-cogs-one-count.ts';
import type { RideReport } from './ride-report-schema.ts';

/** What a verdict cannot tell where a recorder names two cogs by one tooth count: a note that says so, with both cogs as the newest such ride's warning names them; else none. */
export function twoCogsNote(rides: readonly Pick<RideReport, 'warnings'>[]): string[] {
  const warnings = rides.flatMap((ride) => ride.warnings.filter(({ code }) => code === twoCogsOneCount));
  const newest = warnings.at(-1);
  return newest ? [newest.message] : [];
}

import { type SkipTally, tallySkips } from '../cogs/tally-skips.ts';
import type { Bike } from '../drivetrain/bike.ts';
import { poissonInterval } from '../numeric/poisson-interval.ts';
import type { RideEvents } from '../shifts/ride-events.ts';
import type { CogSkips } from './report-schema.ts';
import type { RideReport } from './ride-report-schema.ts';
import { roundTo } from './round-to.ts';
import { seenCounts } from './seen-counts.ts';

/** A ride that counts for its bike. */
interface OwnRide {
  readonly events: Pick<RideEvents, 'skips' | 'pedallingSByCog'>;
  readonly report: Pick<RideReport, 'counts' | 'evidence' | 'warnings'>;
}

/** Skips cog by cog over the rides that can show any, smallest cog first: a cog pedalled where none could be seen has not gone without. */
export const skipsByCog = (rides: readonly OwnRide[], { cassette }: Pick<Bike, 'cassette'>): CogSkips[] =>
  tallySkips(
    rides.filter(({ report }) => seenCounts(report).skips !== null).map(({ events }) => events),
    cassette.length,
  ).map((tally) => cogSkips(tally, cassette));

/** One cog's skips, named by its teeth. */
export function cogSkips({ cog, skips, pedallingS }: SkipTally, cassette: readonly number[]): CogSkips {
  const hours = pedallingS / 3600;
  const { low, high } = poissonInterval(skips);
  const anHour = (count: number): number | null => (hours > 0 ? roundTo(count / hours, 3) : null);
  return {
    teeth: cassette[cog],
    skips,
    pedallingS: Math.round(pedallingS),
    perHour: anHour(skips),
    low: anHour(low),
    high: anHour(high),
  };
}

import type { CogTally } from '../cogs/cog-tally.ts';
import { LOST_FOR_SURE } from '../diagnosis/verdict-limits.ts';
import type { Bike } from '../drivetrain/bike.ts';
import type { CogReport } from './report-schema.ts';
import { tallyReport } from './tally-report.ts';

/** One cog's tally in one direction, named by its teeth. */
export function cogReport(tally: CogTally, bike: Pick<Bike, 'cassette'>): CogReport {
  const { chainDrops, dropConfidences } = tally;
  const sureChainDrops = dropConfidences.filter((confidence) => confidence >= LOST_FOR_SURE).length;
  return { ...cogShiftsReport(tally, bike), chainDrops, sureChainDrops };
}

/** The same of a part of the shifts, to which no lost chain is counted. */
export function cogShiftsReport(tally: CogTally, bike: Pick<Bike, 'cassette'>): CogReport {
  return { teeth: bike.cassette[tally.cog], direction: tally.direction, ...tallyReport(tally) };
}

import { sparseRecords } from '../gear-trace/disagreement/sparse-warning.ts';
import type { RideReport } from './ride-report-schema.ts';

/** What a ride shows of each thing counted; null where its records cannot show it, so that no 0 says that all went well. */
type SeenCounts = Readonly<
  Record<
    'shifts' | 'judged' | 'late' | 'missed' | 'overshot' | 'ghostShifts' | 'chainDrops' | 'skips' | 'trouble',
    number | null
  >
>;

/** As much of a ride as its counts hang on; `warnings` may be left out where no skips are asked for. */
type Counted = Pick<RideReport, 'counts' | 'evidence'> & Partial<Pick<RideReport, 'warnings'>>;

/** Counts of a ride as its evidence allows them to be read: a skip passes between records that lie far apart. What was found counts in any case. */
export function seenCounts({ counts, evidence, warnings = [] }: Counted): SeenCounts {
  const { shifts, unjudged, late, missed, overshot, ghostShifts, chainDrops, skips } = counts;
  const judged = shifts - unjudged;
  const commands = evidence === 'full' || evidence === 'commands-only';
  const actualCog = evidence === 'full' || evidence === 'ratio-only';
  const sparse = warnings.some(({ code }) => code === sparseRecords);
  const where = (shows: boolean) => (count: number) => (shows || count > 0 ? count : null);
  const ofJudged = where(judged > 0);
  return {
    shifts: where(commands)(shifts),
    judged: where(commands)(judged),
    late: ofJudged(late),
    missed: ofJudged(missed),
    overshot: ofJudged(overshot),
    trouble: ofJudged(late + missed + overshot),
    ghostShifts: where(evidence === 'full')(ghostShifts),
    chainDrops: where(actualCog)(chainDrops),
    skips: where(actualCog && !sparse)(skips),
  };
}

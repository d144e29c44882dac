import type { EndCogCount } from '../../adjustments/end-cog-count.ts';
import type { NowVerdict } from '../diagnosis.ts';
import type { ShiftCount } from '../observed.ts';
import type { BikeNow } from './bike-now.ts';

const counts = ({ shifts, trouble }: ShiftCount): { shifts: number; trouble: number } => ({ shifts, trouble });

/** An end cog's count as it is told, without what the trial alone weighs. */
const toldOf = ({ asked, shifts, reached, trouble, lost }: EndCogCount): EndCogCount => ({
  ...{ asked, shifts, reached, trouble, lost },
});

/** What is wrong now, as plain facts for the verdict. */
export function nowVerdict({
  fault,
  setting,
  tooFar,
  pastTheMark,
  since,
  keepOff,
  trial,
}: BikeNow): Omit<NowVerdict, 'lookedOver' | 'foundRight'> {
  const { last, seen, lost } = since;
  return {
    fault,
    setting,
    byLastAdjustment: tooFar?.byLast ?? false,
    pastTheMark,
    keepOff: [...keepOff],
    trial: trial && { end: trial.end, before: toldOf(trial.before), since: toldOf(trial.since) },
    since: {
      at: last?.at ?? null,
      toLarger: counts(seen.shifts('to-larger')),
      toSmaller: counts(seen.shifts('to-smaller')),
      ghostShifts: seen.ghosts('to-larger') + seen.ghosts('to-smaller') + seen.towardsCommand,
      skips: seen.skips(),
      chainDrops: {
        pastLargest: lost('past-largest'),
        pastSmallest: lost('past-smallest'),
        elsewhere: lost('chainring') + lost('unknown'),
      },
    },
  };
}

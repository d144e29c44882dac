import type { Showed } from '../../diagnosis/now/shifts-well.ts';
import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

/** What the rides since the last adjustment showed, both directions together. */
export function showedSince({ since }: DiagnosisReport['now']): Showed {
  const { toLarger, toSmaller, ghostShifts, skips, chainDrops } = since;
  const lost = chainDrops.pastLargest + chainDrops.pastSmallest + chainDrops.elsewhere;
  return {
    all: { shifts: toLarger.shifts + toSmaller.shifts, trouble: toLarger.trouble + toSmaller.trouble },
    events: ghostShifts + skips + lost,
  };
}

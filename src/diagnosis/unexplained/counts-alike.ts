import type { Stratum } from '../../numeric/stratified-fewer.ts';
import type { ShiftEvent } from '../../shifts/ride-events.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { LOAD_BINS, loadBin } from '../evidence/evidence-table.ts';
import { troubleShare } from '../evidence/outcome-fit.ts';
import { sureCount } from './sure-count.ts';
import { weighedShifts } from './weighed-shifts.ts';

type Count = Stratum['before'];

/**
 * Some shifts (`before`) against all others (`after`), each only with those under a like load and between the same adjustments. Trouble counts as far
 * as it is sure: whole counts, no more of it up to any stratum than is sure.
 */
export function countsAlike(evidence: RidingEvidence, isOwn: (shift: ShiftEvent) => boolean): Stratum[] {
  const empty = () => ({ bad: 0, of: 0 });
  const alike = Array.from({ length: LOAD_BINS * (evidence.groups.length + 1) }, () => [empty(), empty()] as const);
  for (const { atMs, shift } of weighedShifts(evidence)) {
    const period = evidence.groups.filter(({ lastMs }) => lastMs <= atMs).length;
    const count = alike[period * LOAD_BINS + loadBin(shift.torqueNm, evidence.edges)][isOwn(shift) ? 0 : 1];
    count.of++;
    if (shift.outcome !== 'clean') count.bad += troubleShare(shift);
  }
  const [own, others] = [0, 1].map((side) => surely(alike.map((one) => one[side])));
  return own.map((before, i) => ({ before, after: others[i] }));
}

/** What is left over of a stratum's sure trouble is carried to the next. */
function surely(counts: readonly Count[]): Count[] {
  let sum = 0;
  return counts.map(({ bad, of }) => {
    const before = sureCount(sum);
    sum += bad;
    return { bad: sureCount(sum) - before, of };
  });
}

import type { Stratum } from '../../numeric/stratified-fewer.ts';
import type { ShiftEvent } from '../../shifts/ride-events.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { LOAD_BINS, loadBin } from '../evidence/evidence-table.ts';
import { troubleShare } from '../evidence/outcome-fit.ts';
import { sureCount } from './sure-count.ts';
import { weighedShifts } from './weighed-shifts.ts';

type Count = Stratum['before'];

/** How likely each of some shifts went wrong. */
type TroubleOf = (shifts: readonly ShiftEvent[]) => readonly number[];

/** That of the shifts which were named late, missed or overshot; none of the others. */
const asNamed: TroubleOf = (shifts) => shifts.map((shift) => (shift.outcome === 'clean' ? 0 : troubleShare(shift)));

/**
 * Some shifts (`before`) against all others (`after`), each only with those under a like load and between the same adjustments. Trouble counts as far
 * as it is sure: whole counts, no more of it up to any stratum than is sure.
 *
 * @param troubleOf asked for the shifts of either side by themselves
 */
export function countsAlike(
  evidence: RidingEvidence,
  isOwn: (shift: ShiftEvent) => boolean,
  troubleOf: TroubleOf = asNamed,
): Stratum[] {
  const empty = () => ({ bad: 0, of: 0 });
  const alike = Array.from({ length: LOAD_BINS * (evidence.groups.length + 1) }, () => [empty(), empty()] as const);
  const weighed = weighedShifts(evidence);
  for (const side of [0, 1]) {
    const some = weighed.filter(({ shift }) => isOwn(shift) === (side === 0));
    const trouble = troubleOf(some.map(({ shift }) => shift));
    some.forEach(({ atMs, shift }, i) => {
      const period = evidence.groups.filter(({ lastMs }) => lastMs <= atMs).length;
      const count = alike[period * LOAD_BINS + loadBin(shift.torqueNm, evidence.edges)][side];
      count.of++;
      count.bad += trouble[i];
    });
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

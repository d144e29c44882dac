import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { cogCell } from '../evidence/evidence-table.ts';
import { troubleShare } from '../evidence/outcome-fit.ts';
import { weighedShifts } from './weighed-shifts.ts';

/** Judged shifts onto a cog in a direction, those that went wrong, and how many of these surely did, as far as each is sure. */
export interface SeenTrouble {
  readonly shifts: number;
  readonly trouble: number;
  readonly sure: number;
  /** Whether each of them went wrong, in order of time. */
  readonly inOrder: readonly { readonly atMs: number; readonly wrong: boolean }[];
}

/** What became of the shifts that the causes were weighed by (`weighedShifts`), for each cog and direction (`cogCell`). */
export function seenTrouble(evidence: RidingEvidence, cassetteLength: number): SeenTrouble[] {
  const cells = Array.from({ length: 2 * cassetteLength }, () => ({
    shifts: 0,
    trouble: 0,
    sure: 0,
    inOrder: [] as { atMs: number; wrong: boolean }[],
  }));
  for (const { atMs, shift } of weighedShifts(evidence)) {
    const seen = cells[cogCell(cassetteLength, shift.direction === 'to-larger', shift.toCog)];
    const wrong = shift.outcome !== 'clean';
    seen.shifts++;
    seen.inOrder.push({ atMs, wrong });
    if (!wrong) continue;
    seen.trouble++;
    seen.sure += troubleShare(shift);
  }
  return cells;
}

/** Several cells in one. */
export function joinSeen(cells: readonly SeenTrouble[]): SeenTrouble {
  const sum = (pick: (one: SeenTrouble) => number): number => cells.reduce((total, one) => total + pick(one), 0);
  return {
    shifts: sum(({ shifts }) => shifts),
    trouble: sum(({ trouble }) => trouble),
    sure: sum(({ sure }) => sure),
    inOrder: cells.flatMap(({ inOrder }) => inOrder).sort((a, b) => a.atMs - b.atMs),
  };
}

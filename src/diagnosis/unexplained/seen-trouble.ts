import { evidenceWeights } from '../assumptions.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { cogCell } from '../evidence/evidence-table.ts';
import { troubleShare } from '../evidence/outcome-fit.ts';

/** Judged shifts onto a cog in a direction, those that went wrong, and how many of these surely did, as far as each is sure. */
export interface SeenTrouble {
  readonly shifts: number;
  readonly trouble: number;
  readonly sure: number;
  /** Whether each of them went wrong, in order of time. */
  readonly inOrder: readonly { readonly atMs: number; readonly wrong: boolean }[];
}

/** The shifts that the causes were weighed by, for each cog and direction (`cogCell`); without those that only the rider's answer tells of, or a lost chain spoiled. */
export function seenTrouble({ rides }: RidingEvidence, cassetteLength: number): SeenTrouble[] {
  const cells = Array.from({ length: 2 * cassetteLength }, () => ({
    shifts: 0,
    trouble: 0,
    sure: 0,
    inOrder: [] as { atMs: number; wrong: boolean }[],
  }));
  for (const { startMs, events } of rides)
    for (const shift of events.shifts) {
      if (shift.outcome === 'unjudged' || shift.weak || shift.cogsToCross === 0) continue;
      if (events.chainDrops.some(({ timeS }) => Math.abs(timeS - shift.timeS) <= evidenceWeights.dropShadowS)) continue;
      const seen = cells[cogCell(cassetteLength, shift.direction === 'to-larger', shift.toCog)];
      const wrong = shift.outcome !== 'clean';
      seen.shifts++;
      seen.inOrder.push({ atMs: startMs + shift.timeS * 1000, wrong });
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

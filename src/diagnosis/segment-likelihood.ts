import { logBeta } from '../numeric/log-gamma.ts';
import { evidenceWeights } from './assumptions.ts';
import { type EvidenceSegment, loadBins, outcomes } from './evidence-table.ts';
import type { PulleyRates } from './pulley-rates.ts';

const width = loadBins * outcomes.length;

/** Cells of one segment that hold shifts, ready to be weighed against rates again and again. */
interface PreparedSegment {
  readonly segment: EvidenceSegment;
  readonly cells: Int32Array;
  /** Weight of a cell's log likelihood: less than 1 where it has many shifts, which are alike for reasons of their own. */
  readonly weights: Float64Array;
  /** Weighted log likelihood of the cell under no cause at all. */
  readonly stray: Float64Array;
  readonly ghostCells: Int32Array;
}

/** Log likelihood of counts whose trouble follows no model: any rate, small ones likelier, any split. */
function strayLogLikelihood(clean: number, late: number, missed: number, overshot: number): number {
  const trouble = late + missed + overshot;
  const rate = logBeta(0.7 + trouble, 3.5 + clean) - logBeta(0.7, 3.5);
  return rate + late * Math.log(0.5) + missed * Math.log(0.4) + overshot * Math.log(0.1);
}

/** Prepares segments; the weights look at all of them together. */
export function prepareSegments(segments: readonly EvidenceSegment[]): PreparedSegment[] {
  const cellCount = (segments[0]?.shifts.length ?? 0) / width;
  const totals = new Float64Array(cellCount);
  const sumCell = (segment: EvidenceSegment, cell: number): number => {
    let sum = 0;
    for (let i = cell * width; i < (cell + 1) * width; i++) sum += segment.shifts[i];
    return sum;
  };
  for (const segment of segments) for (let cell = 0; cell < cellCount; cell++) totals[cell] += sumCell(segment, cell);
  return segments.map((segment) => {
    const cells = Array.from({ length: cellCount }, (_, cell) => cell).filter((cell) => sumCell(segment, cell) > 0);
    const weights = cells.map((cell) => 1 / (1 + totals[cell] / evidenceWeights.shiftsThatCount));
    const stray = cells.map((cell, i) => {
      const counts = outcomes.map((_, outcome) => {
        let sum = 0;
        for (let load = 0; load < loadBins; load++)
          sum += segment.shifts[cell * width + load * outcomes.length + outcome];
        return sum;
      });
      return weights[i] * strayLogLikelihood(counts[0], counts[1], counts[2], counts[3]);
    });
    const ghostCells = Array.from(segment.ghosts.keys()).filter(
      (cell) => segment.ghosts[cell] > 0 || segment.pedallingS[cell % segment.pedallingS.length] > 0,
    );
    return {
      segment,
      cells: Int32Array.from(cells),
      weights: Float64Array.from(weights),
      stray: Float64Array.from(stray),
      ghostCells: Int32Array.from(ghostCells),
    };
  });
}

const strayShare = evidenceWeights.strayCell;
const logStray = Math.log(strayShare);
const logModel = Math.log(1 - strayShare);

/** Log likelihood of a count that clumps (negative binomial, constant terms left out). `shape` small: heavy tail. */
function clumpedCount(count: number, mean: number, shape: number): number {
  return count === 0
    ? -shape * Math.log1p(mean / shape)
    : count * Math.log(mean / (mean + shape)) - shape * Math.log1p(mean / shape);
}

/** Log likelihood of one segment under rates, up to terms that are the same for every cause. */
export function segmentLogLikelihood(prepared: PreparedSegment, rates: PulleyRates): number {
  const { segment, cells, weights, stray, ghostCells } = prepared;
  const { shifts } = segment;
  const { logOutcome } = rates;
  let total = 0;
  for (let i = 0; i < cells.length; i++) {
    const from = cells[i] * width;
    let sum = 0;
    for (let at = from; at < from + width; at++) if (shifts[at] > 0) sum += shifts[at] * logOutcome[at];
    const model = sum * weights[i] + logModel;
    const other = stray[i] + logStray;
    const max = Math.max(model, other);
    total += max + Math.log1p(Math.exp(-Math.abs(model - other)));
  }
  const size = segment.pedallingS.length;
  for (const cell of ghostCells)
    total += clumpedCount(segment.ghosts[cell], rates.ghostPerS[cell] * segment.pedallingS[cell % size] + 1e-9, 0.7);
  for (let cog = 0; cog < size; cog++)
    if (segment.pedallingS[cog] > 0 || segment.skips[cog] > 0)
      total += clumpedCount(segment.skips[cog], rates.skipPerS[cog] * segment.pedallingS[cog] + 1e-9, 0.7);
  for (let end = 0; end < 3; end++)
    total += clumpedCount(segment.drops[end], rates.drop[end] * segment.dropChances[end] + 1e-9, 1);
  return total;
}

export type { PreparedSegment };

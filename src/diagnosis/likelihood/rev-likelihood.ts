import { evidenceWeights } from '../assumptions.ts';
import type { EvidenceSegment } from '../evidence/evidence-table.ts';

/** Crank turns of the clean shifts of one segment, ready to be weighed against expectations again and again. */
export interface PreparedRevs {
  readonly cells: Int32Array;
  /** Mean turns beyond the ride's median, by cell. */
  readonly means: Float64Array;
  /** Inverse of the covariance of the means on a healthy bike, row after row. */
  readonly precision: Float64Array;
}

/** Adds the variance of one shared unknown, times a basis vector, to a covariance known by its inverse (Sherman and Morrison 1950). */
function addShared(precision: Float64Array, basis: Float64Array): void {
  const size = basis.length;
  const turned = new Float64Array(size);
  for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) turned[i] += precision[i * size + j] * basis[j];
  let norm = 1;
  for (let i = 0; i < size; i++) norm += basis[i] * turned[i];
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) precision[i * size + j] -= (turned[i] * turned[j]) / norm;
}

/** Spread of the level that all cells share, crank turns: so wide that it is free (any size from 3 on). */
const FREE_LEVEL_REVS = 10;

/**
 * Prepares the timing of a segment. A ride's own lag shifts every cell alike, so a common level is left free; healthy
 * bikes differ between directions, along the cassette and from cog to cog. `timedInAll` counts the cell's shifts in all
 * segments: what is a cog's own is the same in all of them and may count but once.
 */
export function prepareRevs(segment: EvidenceSegment, timedInAll: Float64Array, spread: number): PreparedRevs {
  const { timed, slowRevs } = segment;
  const cells = Int32Array.from(timed.keys()).filter((cell) => timed[cell] > 0);
  const size = cells.length;
  const cogs = timed.length / 2;
  const { healthyRevs } = evidenceWeights;
  const precision = new Float64Array(size * size);
  cells.forEach((cell, i) => {
    const own = (spread * spread) / timed[cell];
    precision[i * size + i] = 1 / (own + (healthyRevs.cog ** 2 * timedInAll[cell]) / timed[cell]);
  });
  const share = (cell: number): number => (cell % cogs) / (cogs - 1) - 0.5;
  const side = (cell: number): number => (cell < cogs ? 0.5 : -0.5);
  const shared = (size: number, of: (cell: number) => number): Float64Array =>
    Float64Array.from(cells, (cell) => size * of(cell));
  for (const basis of [
    shared(FREE_LEVEL_REVS, () => 1),
    shared(healthyRevs.direction, side),
    shared(healthyRevs.slope, share),
    shared(healthyRevs.slopeByDirection, (cell) => side(cell) * share(cell)),
    shared(healthyRevs.end, (cell) => (cell === cogs - 1 ? 1 : 0)),
    shared(healthyRevs.end, (cell) => (cell === cogs ? 1 : 0)),
  ])
    addShared(precision, basis);
  return { cells, means: Float64Array.from(cells, (cell) => slowRevs[cell] / timed[cell]), precision };
}

const residuals = new Float64Array(64);

/** Log likelihood of the timing under expected slowness, multivariate t: a bike unlike any model costs little. */
export function revLogLikelihood({ cells, means, precision }: PreparedRevs, slow: Float64Array): number {
  const size = cells.length;
  if (size < 2) return 0;
  for (let i = 0; i < size; i++) residuals[i] = means[i] - slow[cells[i]];
  let square = 0;
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += precision[i * size + j] * residuals[j];
    square += sum * residuals[i];
  }
  const freedom = evidenceWeights.revsFreedom;
  return (-(freedom + size) / 2) * Math.log1p(Math.max(0, square) / freedom);
}

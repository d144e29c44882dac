import { describe, expect, it } from 'vitest';
import { rateTrend, type SeriesCount } from '../../src/numeric/rate-trend.ts';

const of100 = (bad: readonly number[]): SeriesCount[] => bad.map((one) => ({ bad: one, of: 100 }));

/** Slow twin: solves the normal equations by elimination and reads off a coefficient over its error. */
function solved(counts: readonly SeriesCount[], columns: readonly (readonly number[])[], wanted: number): number {
  const y = counts.map(({ bad, of }) => Math.asin(Math.sqrt((bad + 0.375) / (of + 0.75))));
  const weight = counts.map(({ of }) => 4 * of + 2);
  const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, x, i) => sum + weight[i] * x * b[i], 0);
  const rows = columns.map((a, i) => [
    ...columns.map((b) => dot(a, b)),
    dot(a, y),
    ...columns.map((_, j) => (i === j ? 1 : 0)),
  ]);
  rows.forEach((row, i) => {
    const pivot = row[i];
    row.forEach((_, k) => {
      row[k] /= pivot;
    });
    for (const other of rows.filter((one) => one !== row)) {
      const share = other[i];
      other.forEach((_, k) => {
        other[k] -= share * row[k];
      });
    }
  });
  const n = columns.length;
  return rows[wanted][n] / Math.sqrt(rows[wanted][n + 1 + wanted]);
}

describe('rateTrend', () => {
  it('agrees with the normal equations', () => {
    const counts = [2, 5, 3, 9, 14, 12, 30].map((bad, i) => ({ bad, of: 80 + 7 * i }));
    const columns = [counts.map(() => 1), counts.map((_, i) => i), counts.map((_, i) => (i >= 4 ? 1 : 0))];
    const { slopeZ, stepZ } = rateTrend(counts, 4);
    expect(slopeZ).toBeCloseTo(solved(counts, columns, 1), 8);
    expect(stepZ).toBeCloseTo(solved(counts, columns, 2), 8);
    expect(rateTrend(counts).slopeZ).toBeCloseTo(solved(counts, columns.slice(0, 2), 1), 8);
  });

  it('tells a step from a slope', () => {
    const step = rateTrend(of100([2, 3, 2, 20, 21, 20]), 3);
    expect(step.stepZ).toBeGreaterThan(3);
    expect(Math.abs(step.slopeZ)).toBeLessThan(0.5);
    const slope = rateTrend(of100([1, 4, 8, 13, 19, 26]), 3);
    expect(slope.slopeZ).toBeGreaterThan(2);
    expect(Math.abs(slope.stepZ)).toBeLessThan(1);
  });

  it('says 0 where one place is all there is', () => {
    expect(rateTrend(of100([7]))).toEqual({ slopeZ: 0, stepZ: 0 });
    expect(rateTrend([])).toEqual({ slopeZ: 0, stepZ: 0 });
  });
});

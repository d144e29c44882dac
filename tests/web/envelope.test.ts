import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eachColumn, makeEnvelope } from '../../web/charts/timeline/envelope.ts';

const column = fc
  .array(
    fc.oneof(
      { weight: 4, arbitrary: fc.integer({ min: -50, max: 400 }) },
      { weight: 1, arbitrary: fc.constant(Number.NaN) },
    ),
    {
      minLength: 1,
      maxLength: 3000,
    },
  )
  .map((values) => Float32Array.from(values));

function columnsOf(values: Float32Array, from: number, to: number, widthPx: number): Map<number, [number, number]> {
  const found = new Map<number, [number, number]>();
  const xOf = (sample: number): number => ((sample - from) / Math.max(1, to - from)) * widthPx;
  eachColumn(makeEnvelope(values), from, to, xOf, (x, low, high) => found.set(x, [low, high]));
  return found;
}

describe('eachColumn', () => {
  it('keeps the smallest and the largest value of the whole ride at any width', () => {
    fc.assert(
      fc.property(column, fc.integer({ min: 20, max: 1200 }), (values, widthPx) => {
        const seen = [...columnsOf(values, 0, values.length, widthPx).values()];
        const known = values.filter((value) => !Number.isNaN(value));
        if (known.length === 0) return seen.length === 0;
        return (
          Math.min(...seen.map(([low]) => low)) === Math.min(...known) &&
          Math.max(...seen.map(([, high]) => high)) === Math.max(...known)
        );
      }),
    );
  });

  it('says the same as going over every sample where there are fewer samples than pixels', () => {
    const values = Float32Array.from([3, Number.NaN, 5, 4, 9]);
    expect([...columnsOf(values, 1, 5, 400)]).toEqual([
      [100, [5, 5]],
      [200, [4, 4]],
      [300, [9, 9]],
    ]);
  });

  it('hands out at most one column a pixel for ten hours, in order', () => {
    const values = Float32Array.from({ length: 36_000 }, (_, i) => Math.sin(i / 50) * 100);
    const xs = [...columnsOf(values, 0, values.length, 900).keys()];
    expect(xs.length).toBeLessThanOrEqual(901);
    expect(xs.length).toBeGreaterThan(600);
    expect(xs).toEqual([...xs].sort((a, b) => a - b));
  });

  it('leaves out columns without a value and gives nothing for an empty stretch', () => {
    const values = Float32Array.from({ length: 4000 }, (_, i) => (i >= 1000 && i < 3000 ? Number.NaN : 1));
    const xs = [...columnsOf(values, 0, 4000, 400).keys()];
    expect(xs.filter((x) => x > 102 && x < 298)).toEqual([]);
    expect([...columnsOf(values, 5, 5, 400)]).toEqual([]);
  });
});

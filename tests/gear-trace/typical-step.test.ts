import { describe, expect, it } from 'vitest';
import { sparseWarning } from '../../src/gear-trace/disagreement/sparse-warning.ts';
import { isSparse, typicalStepS } from '../../src/gear-trace/samples/typical-step.ts';

/** Records at these steps, the cranks turning unless told otherwise. */
const cranks = (dtS: readonly number[], pedalling = dtS.map(() => 1)) => ({
  dtS: Float64Array.from(dtS),
  pedalling: Uint8Array.from(pedalling),
});
const times = (count: number, step: number): number[] => Array.from({ length: count }, () => step);

describe('the typical step between records', () => {
  it('is that of the time pedalled, not of most records', () => {
    expect(typicalStepS(cranks([1, ...times(100, 1), ...times(30, 6)]))).toBe(6);
    expect(typicalStepS(cranks([1, ...times(100, 1), ...times(10, 6)]))).toBe(1);
  });

  it('leaves out pauses, standing cranks and the first record, which has no step', () => {
    expect(typicalStepS(cranks([1, 1, 1, 1, 61, 5000]))).toBe(1);
    expect(typicalStepS(cranks([1, 1, 1, 30, 30], [1, 1, 1, 0, 0]))).toBe(1);
    expect(typicalStepS(cranks([1]))).toBeNaN();
    expect(typicalStepS(cranks([1, 1, 1], [0, 0, 0]))).toBeNaN();
  });

  it('is sparse over 2 s, and says so', () => {
    expect([1, 2, 2.5, 5].map((step) => isSparse(cranks([1, ...times(50, step)])))).toEqual([false, false, true, true]);
    expect(sparseWarning(cranks([1, ...times(50, 2)]))).toBeNull();
    expect(sparseWarning(cranks([1, 1, 1], [0, 0, 0]))).toBeNull();
    expect(sparseWarning(cranks([1, ...times(50, 5.04)]))).toEqual({
      code: 'sparse-records',
      message: expect.stringMatching(/^The records lie about 5 s apart while pedalling: .* one record a second\.$/),
    });
  });
});

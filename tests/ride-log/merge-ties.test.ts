import { expect, it } from 'vitest';
import { mergeTies } from '../../src/ride-log/merge-ties.ts';
import { RideDraft } from '../../src/ride-log/ride-draft.ts';

/** Two records a second for a minute from a moment on, each with its number as the speed. */
function twiceASecond(fromMs: number): ReturnType<typeof mergeTies> {
  const draft = new RideDraft('fast.csv', 'csv');
  const missing = { cadenceRpm: Number.NaN, powerW: Number.NaN, distanceM: Number.NaN, pathM: Number.NaN };
  for (let i = 0; i < 120; i++) draft.add({ timeMs: fromMs + 500 * i, speedMps: i, ...missing });
  return mergeTies(
    draft,
    Uint32Array.from({ length: 120 }, (_, i) => i),
  );
}

it.each([0, 300, 600, 999])('joins records to seconds that are counted from the first one, at %i ms', (fromMs) => {
  const { timeMs, speedMps, beyondSeconds } = twiceASecond(fromMs);
  expect(timeMs).toHaveLength(60);
  // of each second the last record, but the ride begins with its first
  expect([...timeMs.slice(0, 3)]).toEqual([fromMs, fromMs + 1500, fromMs + 2500]);
  expect([...speedMps.slice(0, 3)]).toEqual([1, 3, 5]);
  expect(beyondSeconds).toBe(60);
});

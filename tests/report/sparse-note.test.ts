import { expect, it } from 'vitest';
import { sparseNote } from '../../src/report/sparse-note.ts';

const ride = (evidence: 'full' | 'ratio-only', ...codes: string[]) => ({
  evidence,
  warnings: codes.map((code) => ({ code, message: code })),
});

it('counts the rides whose shifts pass between records, of those whose shifts could be judged at all', () => {
  const [dense, sparse, plain] = [ride('full', 'teeth-differ'), ride('full', 'sparse-records'), ride('ratio-only')];
  expect(sparseNote([dense, sparse, plain, sparse])[0]).toMatch(/^In 2 of 3 rides with gear records and cadence /);
  expect(sparseNote([sparse, plain])[0]).toMatch(/^In every ride with gear records and cadence /);
  expect(sparseNote([dense, plain])).toEqual([]);
  expect(sparseNote([dense, ride('ratio-only', 'sparse-records')])).toEqual([]);
  expect(sparseNote([])).toEqual([]);
});

import { expect, it } from 'vitest';
import { keepWithin } from '../../src/ride-log/keep-within.ts';
import { RideDraft } from '../../src/ride-log/ride-draft.ts';

it('keeps the pauses of a ride of which only stretches are kept', () => {
  const draft = new RideDraft('made.fit', 'fit');
  draft.pausesMs.push({ startMs: 5000, endMs: 9000 });
  expect(keepWithin(draft, [{ startMs: 0, endMs: 20_000 }]).pausesMs).toEqual(draft.pausesMs);
  expect(draft.pausesMs).toHaveLength(1);
});

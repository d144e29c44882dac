import { expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { adjustmentsThatCount } from '../../src/adjustments/adjustments-that-count.ts';

const chain: Adjustment = { at: '2026-06-01T11:00:00Z', parameter: 'chain', amount: null, unit: 'done', note: 'b' };
const turn: Adjustment = { at: '2026-06-01T11:00:00Z', parameter: 'low-limit', amount: 0.5, unit: 'turns', note: '' };

it('counts once what is entered twice, whatever the note, in order of time, and leaves out what turns nothing', () => {
  const again = { ...chain, note: 'the same' };
  const further = { ...turn, amount: 0.25 };
  const later = { ...chain, at: '2026-06-02T11:00:00Z' };
  expect(adjustmentsThatCount([later, chain, turn, again, further, { ...turn, amount: 0 }], 'cable')).toEqual([
    chain,
    further,
    turn,
    later,
  ]);
});

it('leaves out what the bike does not have', () => {
  const steps: Adjustment = { ...turn, parameter: 'index-offset', unit: 'steps' };
  const clicks: Adjustment = { ...turn, parameter: 'cable-tension', unit: 'clicks' };
  expect(adjustmentsThatCount([steps, clicks, turn], 'cable')).toEqual([clicks, turn]);
  expect(adjustmentsThatCount([steps, clicks, turn], 'electronic')).toEqual([steps, turn]);
});

import { expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import type { Onset } from '../../src/diagnosis/diagnosis.ts';
import { onsetBesideWork } from '../../src/diagnosis/sentences/onset-beside-work.ts';

const grew: Onset = { kind: 'gradual', at: '2026-05-01T08:00:00Z', rideBeforeAt: null, probability: 0.99 };
const told = (change: Partial<AdjustmentComparison>, onset = grew) =>
  onsetBesideWork(onset, 'cable-tension-low', [
    { parameter: 'cable-tension', cameBack: null, probabilityBetter: 0.5, ...change } as AdjustmentComparison,
  ]).kind;

it('is no growing where work took the fault away for a while or made it worse for sure', () => {
  expect(told({})).toBe('gradual');
  expect(told({ cameBack: {} as never })).toBe('unknown');
  expect(told({ probabilityBetter: 0.04 })).toBe('unknown');
  expect(told({ probabilityBetter: 0.06 })).toBe('gradual');
});

it('is none either where work on another part made it worse', () => {
  expect(told({ probabilityBetter: 0.04, parameter: 'pulley-gap' })).toBe('unknown');
});

it('stays what it was beside work on another part that only lasted a while, and where it did not grow', () => {
  expect(told({ cameBack: {} as never, parameter: 'pulley-gap' })).toBe('gradual');
  expect(told({ probabilityBetter: 0.04 }, { ...grew, kind: 'sudden' })).toBe('sudden');
});

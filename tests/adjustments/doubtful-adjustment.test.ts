import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { actuationOf, doubtfulAdjustment } from '../../src/adjustments/doubtful-adjustment.ts';

const nowMs = Date.parse('2026-05-01T12:00:00Z');
const turn: Adjustment = {
  at: '2026-04-12T18:30:00Z',
  parameter: 'cable-tension',
  amount: 1,
  unit: 'clicks',
  note: '',
};
const offset: Adjustment = { ...turn, parameter: 'index-offset', unit: 'steps' };
const doubt = (changes: Partial<Adjustment>, actuation: 'cable' | 'electronic' | null = 'cable') =>
  doubtfulAdjustment({ ...turn, ...changes }, actuation, nowMs)?.key ?? null;

describe('doubtfulAdjustment', () => {
  it('has nothing against what can be meant', () => {
    expect(doubt({})).toBeNull();
    expect(doubt({ amount: 0 })).toBeNull();
    expect(doubt({ at: '2026-05-02T11:00:00Z' })).toBeNull();
    expect(doubt({ parameter: 'hanger', amount: null, unit: 'done' }, 'electronic')).toBeNull();
    expect(doubt(offset, 'electronic')).toBeNull();
    expect(doubt(offset, null)).toBeNull();
  });

  it('names a part that the bike does not have, a time to come', () => {
    expect(doubt(offset)).toBe('parameter');
    expect(doubt({ parameter: 'cable-and-housing', amount: null, unit: 'done' }, 'electronic')).toBe('parameter');
    expect(doubt({ at: '2062-04-12T18:30:00Z' })).toBe('at');
  });
});

describe('actuationOf', () => {
  it('is told by the latest adjustment that only one actuation has', () => {
    expect(actuationOf([])).toBeNull();
    expect(actuationOf([{ ...turn, parameter: 'low-limit', unit: 'turns' }])).toBeNull();
    expect(actuationOf([turn, offset])).toBe('electronic');
    expect(actuationOf([offset, turn])).toBe('cable');
  });
});

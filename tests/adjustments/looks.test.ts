import { describe, expect, it } from 'vitest';
import type { Adjustment } from '../../src/adjustments/adjustment.ts';
import { looksOf } from '../../src/adjustments/looks.ts';
import { adjustmentWords } from '../../src/adjustments/parameter-words.ts';
import { parseAdjustments } from '../../src/adjustments/parse-adjustments.ts';

const look: Adjustment = { at: '2026-06-01T11:00:00Z', parameter: 'low-limit', amount: 0, unit: 'turns', note: 'x' };

describe('an amount of 0', () => {
  it('is a look, each once and in order of time, at what the bike has', () => {
    const later = { ...look, at: '2026-06-02T11:00:00Z' };
    const tension: Adjustment = { ...look, parameter: 'cable-tension', unit: 'clicks' };
    const all = [later, look, { ...look, note: 'again' }, tension, { ...look, amount: 0.5 }];
    const { note: _, amount: __, ...own } = look;
    expect(looksOf(all, 'electronic')).toEqual([own, { ...own, at: later.at }]);
    expect(looksOf(all, 'cable')).toHaveLength(3);
  });

  it('is read from a file for screws and for parts alike, where any other amount of a part is refused', () => {
    const table = (rows: string): Adjustment[] => parseAdjustments('log.csv', `at,parameter,amount,unit\n${rows}`);
    const parts = ['hanger', 'cable-and-housing', 'chain', 'cassette', 'wheel'];
    const rows = parts.map((part) => `2026-06-01T11:00:00Z,${part},0,done`);
    expect(table([...rows, '2026-06-01T11:00:00Z,low-limit,0,turns'].join('\n')).map(({ amount }) => amount)).toEqual(
      Array(6).fill(0),
    );
    expect(table('2026-06-01T11:00:00Z,hanger,0,')).toMatchObject([{ amount: 0, unit: 'done' }]);
    expect(() => table('2026-06-01T11:00:00Z,hanger,1,done')).toThrow(
      /leave the amount empty, or write 0 where it was looked at and found right/,
    );
  });

  it('is put into words as a look', () => {
    expect(adjustmentWords(look)).toBe('low limit screw looked at, found right');
    expect(adjustmentWords({ parameter: 'chain', amount: 0, unit: 'done' })).toBe('chain looked at, found right');
  });
});

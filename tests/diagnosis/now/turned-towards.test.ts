import { describe, expect, it } from 'vitest';
import { oppositeOf, turnableFaults, turnedTowards } from '../../../src/diagnosis/now/turned-towards.ts';
import { turned } from './adjusted-bikes.ts';

describe('turnedTowards', () => {
  it.each([
    ['cable-tension', 2, 'cable-tension-high'],
    ['index-offset', -2, 'cable-tension-low'],
    ['low-limit', 1, 'low-limit-tight'],
    ['high-limit', -1, 'high-limit-loose'],
    ['pulley-gap', 1, 'pulley-gap-large'],
  ] as const)('%s by %i leads to %s and to no other fault', (parameter, amount, fault) => {
    const made = [turned(1, [parameter, amount])];
    expect(turnableFaults.filter((one) => turnedTowards(one, made) !== null)).toEqual([fault]);
    expect(turnedTowards(fault, made)).toEqual({ amount: Math.abs(amount), lastAt: made[0].at, lastTowards: true });
  });

  it('sums what was turned to and fro, and says which way the last went', () => {
    const there = turned(1, ['low-limit', -2]);
    const back = turned(3, ['low-limit', 0.5]);
    const other = turned(5, ['cable-tension', 3]);
    expect(turnedTowards('low-limit-loose', [there, back, other])).toEqual({
      amount: 1.5,
      lastAt: back.at,
      lastTowards: false,
    });
    expect(turnedTowards('low-limit-loose', [there, turned(3, ['low-limit', 2])])).toBeNull();
  });

  it('is none where tenths of a turn take each other back, though their sum is not exact', () => {
    const tenths = [-0.1, -0.2, 0.3].map((amount, i) => turned(1 + 2 * i, ['low-limit', amount]));
    expect(turnableFaults.filter((fault) => turnedTowards(fault, tenths) !== null)).toEqual([]);
  });

  it('goes from each fault to the one on the other side and back', () => {
    for (const fault of turnableFaults) {
      expect(oppositeOf(fault)).not.toBe(fault);
      expect(oppositeOf(oppositeOf(fault)!)).toBe(fault);
    }
    for (const cause of ['no-fault', 'hanger-bent', 'cable-friction', 'worn-drivetrain'] as const)
      expect(oppositeOf(cause)).toBeNull();
  });
});

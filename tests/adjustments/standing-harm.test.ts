import { describe, expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import { standingHarm } from '../../src/adjustments/standing-harm.ts';

const period = (shifts: number, late: number): AdjustmentComparison['before'] => ({
  ...{ shifts, late, missed: 0, overshot: 0, ghostShifts: 0 },
  ...{ troubleRate: late / shifts, low: 0, high: 1 },
});

let hour = 0;
const turned = (amount: number | null, change: Partial<AdjustmentComparison> = {}): AdjustmentComparison => ({
  at: new Date(Date.UTC(2026, 3, 1, hour++)).toISOString(),
  parameter: 'cable-tension',
  amount,
  unit: 'clicks',
  before: period(100, 5),
  after: period(100 + hour, 5),
  cogs: [],
  endCog: null,
  skipping: null,
  probabilityBetter: 0.5,
  shiftsStillNeeded: null,
  ...{ cameBack: null, wentOnGrowing: null, oppositeWays: null, cancelledOut: false },
  ...{ together: null, followedBy: null },
  group: hour,
  sharedPeriod: false,
  leftOut: { before: 0, after: 0 },
  ...change,
});
const worse = { after: period(100, 40), probabilityBetter: 0.001 };
const back = (...made: AdjustmentComparison[]) => standingHarm(made).map(({ parameter, back }) => [parameter, back]);

describe('standingHarm', () => {
  it('is what made shifting worse, taken back whole where nothing was logged since', () => {
    expect(back(turned(-3, worse))).toEqual([['cable-tension', 3]]);
    expect(back(turned(2), turned(0.5, { ...worse, parameter: 'pulley-gap', unit: 'turns' }))).toEqual([
      ['pulley-gap', -0.5],
    ]);
    expect(back(turned(-3))).toEqual([]);
  });

  it('is only the rest where a part was taken back, and nothing once all was', () => {
    expect(back(turned(-3, worse), turned(1))).toEqual([['cable-tension', 2]]);
    expect(back(turned(-3, worse), turned(3))).toEqual([]);
    expect(back(turned(-3, worse), turned(4))).toEqual([]);
    // tenths that take each other back leave nothing, though their sum is not exact
    expect(back(turned(0.8, worse), turned(-0.7), turned(-0.1))).toEqual([]);
    // what was turned on the same way since is no part of it
    expect(back(turned(-3, worse), turned(-1))).toEqual([['cable-tension', 3]]);
  });

  it('names all that was turned together', () => {
    const shared = { ...worse, group: 0, sharedPeriod: true };
    expect(back(turned(-3, shared), turned(1, { ...shared, parameter: 'pulley-gap', unit: 'turns' }))).toEqual([
      ['cable-tension', 3],
      ['pulley-gap', -1],
    ]);
  });

  it('leaves alone what belongs to a part aligned or replaced with it or since', () => {
    const part = { parameter: 'hanger', unit: 'done' } as const;
    const shared = { ...worse, group: 0, sharedPeriod: true };
    expect(back(turned(-3, shared), turned(null, { ...shared, ...part }))).toEqual([]);
    expect(back(turned(-3, worse), turned(null, part))).toEqual([]);
    expect(back(turned(null, { ...worse, parameter: 'chain', unit: 'done' }))).toEqual([]);
  });

  it('is nothing that made one part of the shifts better, nor what helped until the trouble came back', () => {
    const count = { shifts: 100, trouble: 20 };
    const part = { cogs: [1], centreCog: 1, before: count, after: count, probabilityBetter: 0.5 };
    const ways = {
      better: { ...part, part: 'to-larger' },
      worse: { ...part, part: 'to-smaller' },
      noneCuresBoth: false,
    } as const;
    expect(back(turned(-3, { ...worse, oppositeWays: ways }))).toEqual([]);
    expect(back(turned(-3, { ...worse, cameBack: { fromMs: 0, until: count, since: count } }))).toEqual([]);
  });

  it('opens no limit past which a chain was lost', () => {
    const limit = (amount: number, lost: number): AdjustmentComparison => {
      const count = { asked: 20, shifts: 20, reached: 20, trouble: 2, lost };
      const endCog = { end: 'past-largest', before: count, after: { ...count, trouble: 15, lost: 0 } } as const;
      return turned(amount, { ...worse, parameter: 'low-limit', unit: 'turns', endCog });
    };
    expect(back(limit(0.5, 2))).toEqual([]);
    expect(back(limit(0.5, 0))).toEqual([['low-limit', -0.5]]);
    expect(back(limit(-0.5, 2))).toEqual([['low-limit', 0.5]]);
  });

  it('is none where one part of the shifts is better and another worse, or trouble was gone for a while', () => {
    const part = (one: 'to-larger' | 'to-smaller', probabilityBetter: number) => {
      const [before, after] = [5, 40].map((trouble) => ({ shifts: 100, trouble }));
      return { part: one, cogs: [3], centreCog: 3, before, after, probabilityBetter };
    };
    const ways = { better: part('to-smaller', 0.99), worse: part('to-larger', 0.001), noneCuresBoth: false };
    const gone = {
      fromMs: Date.UTC(2026, 3, 9),
      until: { shifts: 60, trouble: 0 },
      since: { shifts: 40, trouble: 40 },
    };
    expect(back(turned(-3, { ...worse, oppositeWays: ways }))).toEqual([]);
    expect(back(turned(-3, { ...worse, cameBack: gone }))).toEqual([]);
    // what did harm before it still stands
    expect(back(turned(-3, worse), turned(2, { ...worse, cameBack: gone, parameter: 'pulley-gap' }))).toEqual([
      ['cable-tension', 3],
    ]);
  });
});

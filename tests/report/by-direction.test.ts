import { describe, expect, it } from 'vitest';
import type { AdjustmentReport } from '../../src/report/adjustment-report-schema.ts';
import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';
import { sampleReport } from './sample-report.ts';

const [made] = sampleReport().adjustments;
const tally = (shifts: number, late: number, missed = 0): AdjustmentReport['before'] => ({
  ...made.before,
  ...{ shifts, late, missed, overshot: 0, ghostShifts: 0, troubleRate: shifts > 0 ? (late + missed) / shifts : null },
});
const cog = (
  teeth: number,
  direction: 'to-larger' | 'to-smaller',
  before: AdjustmentReport['before'],
  after: AdjustmentReport['before'],
): AdjustmentReport['cogs'][number] => ({ teeth, direction, before, after, probabilityBetter: 0.5 });

const tension: AdjustmentReport = {
  ...made,
  ...{ parameter: 'cable-tension', amount: 3, unit: 'clicks', oppositeWays: null, sharedPeriod: false },
  cogs: [
    cog(21, 'to-larger', tally(60, 30, 4), tally(50, 0)),
    cog(45, 'to-larger', tally(40, 10), tally(45, 1, 2)),
    cog(21, 'to-smaller', tally(80, 0), tally(90, 0)),
  ],
  before: tally(180, 40, 4),
  after: tally(185, 1, 2),
  probabilityBetter: 0.999,
};
const SAID = 'To larger cogs 44 of 100 went wrong before and 3 of 95 after, to smaller 0 of 80 and 0 of 90.';
const verdict = (change: Partial<AdjustmentReport> = {}): string => adjustmentVerdict({ ...tension, ...change });

describe('what a turn of the indexing brought', () => {
  it('is told by direction, beside all shifts together', () => {
    expect(verdict()).toContain(`better with a probability of over 99 %. ${SAID}`);
    expect(verdict({ parameter: 'index-offset', unit: 'steps' })).toContain(SAID);
  });

  it('is not where the work moves more than one direction, nothing went wrong, or a direction was not ridden', () => {
    expect(verdict({ parameter: 'pulley-gap', unit: 'turns' })).not.toContain('To larger cogs');
    expect(verdict({ cogs: tension.cogs.slice(0, 2) })).not.toContain('To larger cogs');
    const fine = tension.cogs.map((one) => ({ ...one, before: tally(60, 0), after: tally(60, 0) }));
    expect(verdict({ cogs: fine })).not.toContain('To larger cogs');
  });

  it('is told of no adjustment of which the directions are told already', () => {
    const part = { part: 'to-larger' as const, teeth: [21], probabilityBetter: 0.99 };
    const before = { shifts: 20, trouble: 18 };
    const after = { shifts: 20, trouble: 2 };
    const ways = {
      better: { ...part, before, after },
      worse: { ...part, part: 'to-smaller' as const, before: after, after: before },
    };
    expect(verdict({ oppositeWays: ways })).not.toContain('To larger cogs');
  });
});

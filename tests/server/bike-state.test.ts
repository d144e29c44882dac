import { describe, expect, it } from 'vitest';
import { bikeState } from '../../server/state/bike-state.ts';
import { fewestShifts } from '../../src/diagnosis/suggest.ts';
import { sampleReport } from '../report/sample-report.ts';

describe('the trouble that a bike’s state tells', () => {
  const report = sampleReport();
  const [made] = report.adjustments;
  const all = report.cogs.reduce((sum, { shifts }) => sum + shifts, 0);
  const stateAfter = (shifts: number) =>
    bikeState({ ...report, adjustments: [{ ...made, after: { ...made.after, shifts, late: 5 } }] });

  it('is that since the last adjustment where enough was ridden since, even where nothing was ridden before', () => {
    expect(all).toBeGreaterThan(fewestShifts);
    for (const shifts of [fewestShifts, all])
      expect(stateAfter(shifts)).toMatchObject({ judgedShifts: shifts, sinceAdjustment: true });
  });

  it('is that of all rides otherwise', () => {
    for (const state of [stateAfter(fewestShifts - 1), bikeState({ ...report, adjustments: [] }), bikeState(null)])
      expect(state.sinceAdjustment).toBe(false);
    expect(stateAfter(fewestShifts - 1).judgedShifts).toBe(all);
  });
});

import { expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import { forCause } from '../../src/diagnosis/next-step/for-cause.ts';
import { whichStep } from '../../src/diagnosis/next-step/which-step.ts';
import { facts, now } from './made-facts.ts';

const period = (shifts: number, late: number): AdjustmentComparison['before'] => ({
  ...{ shifts, late, missed: 0, overshot: 0, ghostShifts: 0, troubleRate: late / shifts, low: 0, high: 1 },
});
const made = (change: Partial<AdjustmentComparison>): AdjustmentComparison => ({
  ...{ at: '2026-04-16T12:00:00Z', parameter: 'cable-and-housing', amount: null, unit: 'done' },
  ...{ before: period(500, 119), after: period(150, 7), cogs: [], endCog: null, skipping: null },
  ...{ probabilityBetter: 0.999, shiftsStillNeeded: 0, cameBack: null, wentOnGrowing: null, oppositeWays: null },
  ...{ together: null, followedBy: null, group: 0, sharedPeriod: false, cancelledOut: false },
  leftOut: { before: 0, after: 0 },
  ...change,
});

it('does not ask a second time for cable and housing that were seen to and ridden on', () => {
  const step = (...comparisons: AdjustmentComparison[]) => forCause('cable-friction', facts({ comparisons }));
  expect(step().steps[0]).toMatch(/^Clean or replace cable and housing/);
  expect(step(made({ after: { ...period(1, 0), shifts: 0 } })).steps[0]).toMatch(/^Clean or replace/);
  const next = step(made({}));
  expect(next.steps[0]).toMatch(
    /^Cable and housing were seen to on 2026-04-16, and it is not gone: look at what was not renewed/,
  );
  expect(next.start).toMatch(/move the derailleur by hand/);
  expect(next.cautions.join(' ')).toMatch(/frayed cable/);
});

it('leaves a bike as it is that what was turned helped for sure, though it hangs on an assumption which fault it was', () => {
  const ranked = [
    { cause: 'cable-tension-high', probability: 0.69 },
    { cause: 'no-fault', probability: 0.24 },
  ] as const;
  const undecided = { between: ['cable-tension-high', 'no-fault'] as const, becauseOf: ['x'], sentence: 'x' };
  const turned = { parameter: 'cable-tension', amount: -5, unit: 'clicks', probabilityBetter: 0.75 } as const;
  const kind = (change: Partial<AdjustmentComparison>, setting: 'cured' | 'same' = 'cured') =>
    whichStep(facts({ ranked, undecided, now: now({ setting }), comparisons: [made({ ...turned, ...change })] })).kind;
  const together = {
    ...{ fromAt: '2026-04-16T12:00:00Z', before: period(480, 13), after: period(144, 0), endCog: null },
    ...{ probabilityBetter: 0.987, shiftsStillNeeded: 0 },
  };
  expect(kind({ together })).toBe('after-adjusting');
  expect(kind({})).toBe('whether-a-fault');
  expect(kind({ together }, 'same')).toBe('whether-a-fault');
});

import { describe, expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../../src/adjustments/compare-adjustments.ts';
import { suggest } from '../../../src/diagnosis/next-step/suggest.ts';
import { awaitedProof } from '../../../src/diagnosis/now/awaited-proof.ts';
import { count, facts, seen } from '../made-facts.ts';
import { healthyPattern, type PatternRide } from '../pattern-ride.ts';
import { slow, verdictOn } from './adjusted-bikes.ts';

const onto = (shifts: number, trouble: number, lost = 0) => ({ asked: shifts, shifts, reached: shifts, trouble, lost });

/** A low limit let out, after which the largest cog was hardly tried. */
function letOut(changes: Partial<AdjustmentComparison> = {}, lost = 0): AdjustmentComparison {
  return {
    ...{ at: '2026-04-16T12:00:00Z', parameter: 'low-limit', amount: -0.25, unit: 'turns', group: 0 },
    ...{ probabilityBetter: 0.9, shiftsStillNeeded: 5, together: null, skipping: null, cancelledOut: false },
    before: { shifts: 370, late: 6, missed: 1, overshot: 0 },
    endCog: { end: 'past-largest', before: onto(42, 7, lost), after: onto(9, 0) },
    ...changes,
  } as AdjustmentComparison;
}

describe('what was done last and has no answer yet', () => {
  it('is asked for by the step of a bike that is left as it is, before any other cog', () => {
    const inOrder = {
      ranked: [{ cause: 'no-fault', probability: 0.6 }] as const,
      seen: seen({ shifts: () => count(2, 0) }),
    };
    const verify = (comparisons: AdjustmentComparison[]) => suggest(facts({ ...inOrder, comparisons })).verify;
    expect(verify([letOut()])).toMatch(
      /About 5 more judged shifts onto the largest cog, softly, away from traffic, will tell whether what was done on 2026-04-16 \(low limit screw -0\.25 turns\) helped\.$/,
    );
    expect(verify([])).toMatch(/make ten soft shifts onto each/);
  });

  it('is none once it is decided, where it got worse, nothing went wrong before, or the chain was lost there', () => {
    expect(awaitedProof([letOut()])?.shifts).toBe(5);
    expect(awaitedProof([letOut({ shiftsStillNeeded: 0 })])).toBeNull();
    expect(awaitedProof([letOut({ shiftsStillNeeded: null })])).toBeNull();
    expect(awaitedProof([letOut({ probabilityBetter: 0.3 })])).toBeNull();
    expect(awaitedProof([letOut({ endCog: null, before: { late: 0, missed: 0, overshot: 0 } as never })])).toBeNull();
    expect(awaitedProof([letOut({}, 1)])).toBeNull();
  });
});

describe('a fault that was turned against, while more shifts will tell', () => {
  const slowly = { pattern: slow('to-larger', 0.12, 0.05) };
  const after = (then: Omit<PatternRide, 'day'>, amount = 1) =>
    verdictOn([slowly, slowly, { ...then, after: ['cable-tension', amount] }]);

  it('is ridden on by the shifts that its entry still needs, and not turned further', () => {
    const { causes, now, comparisons, suggestion } = after({ pattern: healthyPattern, shifts: 1 });
    expect(causes[0].cause).toBe('cable-tension-low');
    expect(comparisons[0].probabilityBetter).toBeLessThan(0.95);
    expect([now.setting, suggestion.parameter]).toEqual(['unsettled', 'none']);
    expect(suggestion.action).toMatch(/^Ride before anything more is turned/);
    expect(suggestion.verify).toMatch(
      /^About \d+ more judged shifts will tell whether what was done on 2026-05-04 \(cable tension \+1 click\) helped\.$/,
    );
  });
});

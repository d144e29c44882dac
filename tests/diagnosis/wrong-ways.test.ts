import { describe, expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import { adjustmentReport } from '../../src/report/adjustment-report.ts';
import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';
import { count, facts, seen } from './made-facts.ts';
import { adjustedBike, lost, slow, verdictOn } from './now/adjusted-bikes.ts';
import { cableBike, healthyPattern } from './pattern-ride.ts';

const low = slow('to-larger');
const besides = (verdict: Diagnosis): string =>
  adjustmentVerdict(adjustmentReport(verdict.comparisons[0], cableBike, verdict));

describe('an entry that turned the fault further the way in which it is out', () => {
  it('is taken back first, and said to be the wrong way in the step and beside it', () => {
    const verdict = verdictOn([{ pattern: low }, { pattern: low }, { pattern: low, after: ['cable-tension', -1] }]);
    const { suggestion } = verdict;
    expect(verdict.now.setting).toBe('same');
    expect(suggestion.steps[0]).toBe(
      'First take back what was done on 2026-05-04, since it was the wrong way for too low a cable tension: turn the barrel adjuster 1 click anticlockwise.',
    );
    expect(suggestion.sense).toBe(1);
    expect(besides(verdict)).toMatch(/It was the wrong way for too low a cable tension: take it back first\.$/);
  });

  it('has an opened limit closed, and looked at on the stand before anybody rides on', () => {
    const loses = { pattern: healthyPattern, drops: lost('past-largest', 2) };
    const verdict = verdictOn([loses, loses, { ...loses, after: ['low-limit', -1] }]);
    const { steps, start, verify, cautions } = verdict.suggestion;
    expect(verdict.causes[0].cause).toBe('low-limit-loose');
    expect(steps[0]).toMatch(/^First take back .* the wrong way for .* too far out: .* 1 turn clockwise\.$/);
    expect(steps[1]).toMatch(/^Have the hanger gauged, .* With the hanger in order, look on a stand\./);
    expect(start).toBe('On a stand, at most a quarter of a turn at a time, with a look after each.');
    expect([...steps, ...cautions].join(' ')).toMatch(/keep off the largest cog/i);
    expect(`${start} ${verify}`).not.toMatch(/ride again|next ride/);
    expect(besides(verdict)).toMatch(/wrong way for a low limit screw too far out/);
  });

  it('has the hanger looked at once, where that comes before more is turned the right way', () => {
    const tally = { ...count(100, 20), ghostShifts: 0, troubleRate: 0.2, low: 0.1, high: 0.3 };
    const opened: AdjustmentComparison = {
      at: '2026-05-04T18:00:00.000Z',
      parameter: 'low-limit',
      amount: -1,
      unit: 'turns',
      ...{ before: tally, after: tally, cogs: [], probabilityBetter: 0.5, shiftsStillNeeded: 40 },
      ...{ endCog: null, cameBack: null, wentOnGrowing: null, oppositeWays: null, together: null, followedBy: null },
      ...{ skipping: null, group: 0, sharedPeriod: false, cancelledOut: false, leftOut: { before: 0, after: 0 } },
    };
    const of = (kind: 'sudden' | 'steady') =>
      suggest(
        facts({
          ranked: [
            { cause: 'low-limit-loose', probability: 0.9 },
            { cause: 'no-fault', probability: 0.1 },
          ],
          seen: seen({ all: count(300, 60) }),
          onset: { kind, at: '2026-05-03T09:00:00.000Z', rideBeforeAt: '2026-05-01T09:00:00.000Z', probability: 0.95 },
          comparisons: [opened],
        }),
      ).steps;
    const sudden = of('sudden');
    expect(sudden[0]).toMatch(/^First take back .* the wrong way for a low limit screw too far out/);
    expect(sudden.filter((step) => /hanger (checked|gauged)/.test(step))).toHaveLength(1);
    expect(sudden.at(-1)).toMatch(/^If that is not enough: see on a stand how far the limit/);
    // with no such look before it, that of the step itself stays
    expect(of('steady').at(-1)).toMatch(/^If that is not enough: have the hanger gauged/);
  });

  it('is none once a later entry took it back, whether or not that one helped', () => {
    const some = slow('to-larger', 0.1, 0.05);
    const back = (amount: number, pattern = some) =>
      verdictOn([
        { pattern: low },
        { pattern: low },
        { pattern: low, after: ['cable-tension', -2] },
        { pattern, after: ['cable-tension', amount] },
        { pattern },
      ]);
    for (const verdict of [back(4), back(2), back(4, low)]) {
      expect([verdict.now.setting, verdict.causes[0].cause]).toEqual(['same', 'cable-tension-low']);
      expect(verdict.wrongWays).toEqual([]);
      expect(verdict.suggestion.action).not.toMatch(/take back/i);
    }
    const [left] = back(1).suggestion.steps;
    expect(left).toMatch(/^First take back .*: turn the barrel adjuster 1 click anticlockwise\.$/);
  });

  it('is none where it went the right way, came before the fault, or was another setting', () => {
    const right = verdictOn([{ pattern: low }, { pattern: low, after: ['cable-tension', 1] }]);
    const gap = verdictOn([{ pattern: low }, { pattern: low, after: ['pulley-gap', -1] }]);
    const { rides, ...input } = adjustedBike([{ pattern: low }, { pattern: low, after: ['cable-tension', -1] }]);
    const before = diagnose({ ...input, rides: rides.slice(1) });
    for (const verdict of [right, gap, before]) {
      expect(verdict.wrongWays).toEqual([]);
      expect(verdict.suggestion.action).not.toMatch(/wrong way/);
      expect(besides(verdict)).not.toMatch(/wrong way/);
    }
  });
});

describe('what can hurt', () => {
  it('is looked at before what made shifting worse is taken back', () => {
    const worse = slow('to-larger', 0.2, 0.5);
    const verdict = verdictOn([
      { pattern: slow('to-larger', 0.1, 0.05), shifts: 20 },
      { pattern: worse, shifts: 20, after: ['cable-tension', -3], drops: lost('past-smallest', 1) },
      { pattern: worse, shifts: 20 },
    ]);
    expect(verdict.now.keepOff).toEqual(['past-smallest']);
    const { steps, cautions } = verdict.suggestion;
    expect(steps[0]).toMatch(
      /^First look whether the hanger is bent; then see on a stand how far the high limit screw/,
    );
    expect(steps[1]).toMatch(/^Then take back what was done on 2026-05-02, since it made shifting worse/);
    expect([verdict.suggestion.start, ...cautions].join(' ')).toMatch(/keep off the smallest cog/i);
  });
});

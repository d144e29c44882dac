import { describe, expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import { lookAtNewPart } from '../../src/diagnosis/next-step/look-at-new-part.ts';
import { facts } from './made-facts.ts';
import { slow, verdictOn } from './now/adjusted-bikes.ts';

const fine = { pattern: () => ({}), shifts: 20 };
const bad = { pattern: slow('to-larger', 0.2, 0.3), shifts: 20 };
const firstStep = (rides: Parameters<typeof verdictOn>[0]): string => verdictOn(rides).suggestion.steps[0];

const madeWorse = (parameter: AdjustmentComparison['parameter']): AdjustmentComparison =>
  ({
    ...{ at: '2026-05-04T18:00:00.000Z', parameter, amount: null, unit: 'done', group: 0, together: null },
    ...{ before: { shifts: 100 }, after: { shifts: 200 }, probabilityBetter: 0.001, oppositeWays: null },
  }) as unknown as AdjustmentComparison;

describe('trouble that came with a part', () => {
  it('has that work looked over before anything is turned', () => {
    const { suggestion } = verdictOn([fine, { ...bad, after: ['cassette', null] }, bad]);
    expect(suggestion.steps[0]).toMatch(
      /^First look at what was done on 2026-05-\d\d \(cassette\), since the trouble came with it: whether its lockring is tight, no spacer .* indexing and both limits still fit/,
    );
    expect(suggestion.steps.length).toBeGreaterThan(1);
    expect(suggestion.start).toMatch('Look over that work before anything is turned.');
    expect(firstStep([fine, { ...bad, after: ['chain', null] }, bad])).toMatch(/\(chain\).*no stiff link\.$/);
  });

  it('is not laid to one that changed nothing, or to one before which there was as much', () => {
    expect(firstStep([bad, { ...bad, after: ['cassette', null] }, bad])).not.toMatch(/look at what was done/);
    expect(firstStep([fine, { ...fine, after: ['cassette', null] }, bad, bad])).not.toMatch(/look at what was done/);
  });

  it('is reason enough for a sudden beginning: the hanger is not asked for beside it', () => {
    const { onset, suggestion } = verdictOn([fine, { ...bad, after: ['chain', null] }, bad]);
    expect(onset.kind).toBe('sudden');
    expect(suggestion.action).toMatch(/the trouble came with it/);
    expect(suggestion.action).not.toMatch(/since it began suddenly/);
  });

  it('is not laid to one after which the bike shifted well before the trouble began', () => {
    const replaced = madeWorse('hanger');
    const began = (at: string, rideBeforeAt: string | null) =>
      lookAtNewPart(facts({ comparisons: [replaced], onset: { kind: 'sudden', at, rideBeforeAt, probability: 0.9 } }));
    expect(began('2026-05-09T07:00:00.000Z', '2026-05-07T07:00:00.000Z')).toEqual([]);
    expect(began('2026-05-05T08:10:00.000Z', null)).toEqual([]);
    expect(began('2026-05-05T07:00:00.000Z', '2026-05-03T07:00:00.000Z')).toHaveLength(1);
    expect(lookAtNewPart(facts({ comparisons: [replaced] }))).toHaveLength(1);
  });

  it('is laid to one that made one direction worse, though the other got better', () => {
    const twoWays = {
      ...{ at: '2026-05-04T18:00:00.000Z', parameter: 'cable-and-housing', amount: null, unit: 'done', group: 0 },
      ...{ before: { shifts: 100 }, after: { shifts: 200 }, probabilityBetter: 0.5 },
    };
    const step = (oppositeWays: object | null) =>
      lookAtNewPart(facts({ comparisons: [{ ...twoWays, oppositeWays } as unknown as AdjustmentComparison] }));
    expect(step({ better: {}, worse: {} })).toHaveLength(1);
    expect(step(null)).toEqual([]);
  });

  it('is said to have come with it only where it was not there before', () => {
    const [work] = lookAtNewPart(facts({ comparisons: [madeWorse('hanger')] }));
    expect(work.step).toMatch(/\(derailleur hanger\), since shifting was worse after it: whether hanger/);
    expect(firstStep([fine, { ...bad, after: ['hanger', null] }, bad])).toMatch(/since the trouble came with it/);
  });

  it('is not looked for in a part that was found right since', () => {
    const comparisons = [madeWorse('hanger'), madeWorse('cable-and-housing')];
    const steps = (...parts: ('hanger' | 'cable-and-housing')[]) => {
      const foundRight = parts.map(
        (parameter) => ({ at: '2026-05-04T19:00:00.000Z', parameter, unit: 'done' }) as const,
      );
      return lookAtNewPart(facts({ comparisons, foundRight })).map(({ step }) => step);
    };
    expect(steps()[0]).toMatch(/whether hanger and derailleur sit tight/);
    expect(steps('hanger')[0]).toMatch(/\(cable and housing\).*: whether the cable slips .* both limits still fit/);
    expect(steps('hanger', 'cable-and-housing')).toEqual([]);
  });

  it('is not laid to one that was seen to since', () => {
    const rides = [fine, { ...bad, after: ['wheel', null] as const }, { ...bad, after: ['wheel', null] as const }, bad];
    expect(firstStep(rides)).not.toMatch(/look at what was done/);
    expect(firstStep([fine, { ...bad, after: ['wheel', null] }, { ...fine, after: ['cable-tension', 3] }])).not.toMatch(
      /look at what was done/,
    );
  });
});

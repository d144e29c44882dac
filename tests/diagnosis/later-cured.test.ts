import { describe, expect, it } from 'vitest';
import { adjustmentPeriods } from '../../src/adjustments/adjustment-periods.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import type { Findings } from '../../src/diagnosis/findings.ts';
import { historyInTwo, isLaterCured, withLaterCured } from '../../src/diagnosis/later-cured.ts';
import { EXPLAINED_FROM } from '../../src/diagnosis/verdict-limits.ts';
import { wentTwoWays } from '../../src/diagnosis/went-two-ways.ts';
import { adjustedBike, slow, type Turn, turned } from './now/adjusted-bikes.ts';
import { bentHanger, healthyPattern, type PatternRide } from './pattern-ride.ts';

const ranked = (...causes: readonly (readonly [cause: string, probability: number])[]) =>
  causes.map(([cause, probability]) => ({ cause, probability, evidence: [] }));
const opposite = { better: {}, worse: {} };

/** The hanger aligned on the third evening, the tension let off on the fifth; `between`: how the ride between went. */
function split(between: Omit<PatternRide, 'day'>, change: Readonly<Record<string, unknown>> = {}) {
  const input = adjustedBike([
    { pattern: bentHanger },
    { pattern: bentHanger },
    { ...between, after: ['hanger', null] },
    { pattern: healthyPattern, after: ['cable-tension', -1] },
  ]);
  const evidence = adjustmentPeriods(input.rides, input.adjustments);
  const { now = {}, ...rest } = change;
  const facts = {
    ranked: ranked(['hanger-bent', 0.97], ['no-fault', 0.01]),
    wellSince: null,
    comparisons: input.adjustments.map(({ at, ...one }, group) => ({ at, ...one, group, oppositeWays: null })),
    now: { setting: 'cured', since: { last: input.adjustments[1] }, ...(now as object) },
    ...rest,
  };
  return { input, parts: historyInTwo(input, { evidence } as unknown as Findings, facts as never) };
}

describe('a history in two', () => {
  const failing = { pattern: slow('to-smaller') };

  it('parts where things still went wrong between two adjustments', () => {
    const { input, parts } = split(failing);
    expect(parts).toMatchObject({ at: input.adjustments[0].at, earlier: null, last: [input.adjustments[1]] });
    expect(parts?.later.rides.map(({ startMs }) => startMs)).toEqual(
      input.rides.slice(2).map(({ startMs }) => startMs),
    );
    expect(parts?.later.adjustments).toEqual([input.adjustments[1]]);
  });

  it('is whole where nothing went wrong between, whatever came after what was done last', () => {
    expect(split({ pattern: healthyPattern }).parts).toBeNull();
    const worseAfter = adjustedBike([
      { pattern: bentHanger },
      { pattern: healthyPattern, after: ['hanger', null] },
      { pattern: slow('to-smaller'), after: ['cable-tension', -1] },
    ]);
    const facts = {
      ranked: ranked(['hanger-bent', 0.97]),
      ...{ wellSince: null, comparisons: [] },
      now: { setting: 'cured', since: { last: worseAfter.adjustments[1] } },
    };
    const evidence = adjustmentPeriods(worseAfter.rides, worseAfter.adjustments);
    expect(historyInTwo(worseAfter, { evidence } as unknown as Findings, facts as never)).toBeNull();
  });

  it('also parts where the chain only went by itself between', () => {
    expect(
      split({ pattern: healthyPattern, ghosts: Array.from({ length: 30 }, () => [5, 4] as const) }).parts,
    ).not.toBeNull();
  });

  it('is whole where no fault is likelier than any', () => {
    expect(split(failing, { ranked: ranked(['no-fault', 0.6], ['hanger-bent', 0.4]) }).parts).toBeNull();
  });

  it.each([
    ['cured', {}, true],
    ['unsettled', {}, true],
    ['same', {}, false],
    ['same', { wellSince: { putRight: false } }, false],
    ['same', { wellSince: { putRight: true } }, true],
  ])('hangs on what was done last seeming to have mended it: %s %o', (setting, change, parted) => {
    expect(split(failing, { now: { setting }, ...change }).parts !== null).toBe(parted);
  });

  it('has its earlier part by itself where the work between went two ways', () => {
    const { input } = split(failing);
    const comparisons = input.adjustments.map((one, group) => ({
      ...one,
      group,
      oppositeWays: group ? null : opposite,
    }));
    // work on the hanger is no second thing to a bent hanger
    expect(split(failing, { comparisons }).parts?.earlier).toBeNull();
    const { parts } = split(failing, { comparisons, ranked: ranked(['pulley-gap-large', 0.9]) });
    expect(parts?.earlier?.rides).toHaveLength(2);
    expect(parts?.earlier?.adjustments).toEqual([]);
  });
});

describe('work that went two ways', () => {
  const at = (day: number): string => turned(day, ['chain', null]).at;
  const made = (day: number, [parameter, amount]: Turn, group: number, oppositeWays: object | null = null) => ({
    ...turned(day, [parameter, amount]),
    ...{ group, oppositeWays },
  });
  const twoWays = (...comparisons: ReturnType<typeof made>[]): boolean =>
    wentTwoWays({ ranked: ranked(['low-limit-tight', 0.9]), comparisons } as never, at(1));

  it('is work on another part than the likeliest, after which one thing was better and another worse', () => {
    expect(twoWays(made(1, ['cable-tension', 2], 0, opposite))).toBe(true);
    expect(twoWays(made(1, ['cable-tension', 2], 0))).toBe(false);
    expect(twoWays(made(1, ['low-limit', -0.5], 0, opposite))).toBe(false);
  });

  it('is asked of that evening alone, with all that was done on it', () => {
    const wrong = made(3, ['cable-tension', 2], 1, opposite);
    expect(twoWays(made(1, ['cable-tension', 2], 0), wrong)).toBe(false);
    expect(twoWays(made(1, ['low-limit', -0.5], 0), { ...wrong, group: 0 })).toBe(true);
  });
});

describe('a later fault that was cured', () => {
  const whole = { ranked: ranked(['hanger-bent', 0.97]), now: { setting: 'cured' }, wellSince: null };
  const later = {
    ranked: ranked(['cable-tension-high', 0.9], ['hanger-bent', EXPLAINED_FROM - 0.01]),
    ...{ now: { setting: 'cured' }, undecided: null },
  };
  const last = [turned(5, ['cable-tension', -1])];
  const isCured = (change: object = {}, of: object = whole, done = last): boolean =>
    isLaterCured(of as never, { ...later, ...change } as never, { last: done } as never);

  it('is one that the later part names, and against which the last work went', () => {
    expect(isCured()).toBe(true);
    expect(isCured({}, whole, [turned(5, ['cable-tension', 1])])).toBe(false);
    expect(isCured({}, whole, [turned(5, ['chain', null])])).toBe(false);
    const between = { undecided: { between: ['cable-tension-high', 'cable-friction'] } };
    expect(isCured(between, whole, [turned(5, ['cable-and-housing', null])])).toBe(true);
  });

  it('is not the first fault still there, nor none', () => {
    const first = ['hanger-bent', EXPLAINED_FROM] as const;
    expect(isCured({ ranked: ranked(['cable-tension-high', 0.9], first) })).toBe(false);
    expect(isCured({ undecided: { between: ['cable-tension-high', 'no-fault'] } })).toBe(false);
  });

  it('is gone by either part, or by rides that shift well', () => {
    const same = { now: { setting: 'same' } };
    expect(isCured(same)).toBe(true);
    expect(isCured(same, { ...whole, ...same })).toBe(false);
    expect(isCured(same, { ...whole, ...same, wellSince: { putRight: true } })).toBe(true);
    expect(isCured({}, { ...whole, ...same })).toBe(true);
  });

  it('is no setting that was turned too far and taken back', () => {
    expect(isCured({}, { ...whole, ranked: ranked(['cable-tension-low', 0.97]) })).toBe(false);
  });

  it('stands beside the first, with the step, and with nothing left of what the first alone asked for', () => {
    const first = {
      ...{ cured: false, shiftsWellSince: {}, wrongWays: ['x'], unexplained: {}, riderPart: 1 },
      now: { since: 1 },
    };
    const own = { ...{ suggestion: 2, checkRide: 3, separates: 4, unexplained: null, riderPart: 5 } };
    const told = { causes: 6, weighed: 7, onset: 8, undecided: 9 };
    const both = withLaterCured(first as never, { ...own, ...told } as unknown as Diagnosis, 'after');
    expect(both).toEqual({
      ...own,
      ...{ cured: true, shiftsWellSince: null, wrongWays: [] },
      now: { since: 1, fault: 'no-fault', setting: 'cured' },
      laterCured: { after: 'after', ...told },
    });
  });
});

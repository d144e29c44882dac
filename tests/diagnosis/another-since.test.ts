import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import { adjustedBike, lost, slow, type Turn, verdictOn } from './now/adjusted-bikes.ts';
import { bentHanger, healthyPattern } from './pattern-ride.ts';

const tension = (amount: number): Turn => ['cable-tension', amount];
const [tooLow, tooHigh] = [slow('to-larger'), slow('to-smaller')];
/** Unasked shifts to larger cogs, as too much tension makes and friction hardly does. */
const creeping = [2, 4, 6, 8].map((cog) => [cog, cog + 1] as const);
const CAME_WITH_IT = /since (the trouble came with it|shifting was worse after it)/;

describe('a fault that comes after a cured one', () => {
  it('is what is wrong now: chains lost past an end after the tension was set right', () => {
    const { causes, now, stillThere, anotherSince, suggestion } = verdictOn([
      { pattern: tooLow },
      { pattern: healthyPattern, after: tension(4), drops: lost('past-largest', 2) },
      { pattern: healthyPattern, drops: lost('past-largest', 1) },
    ]);
    expect(causes[0].cause).toBe('cable-tension-low');
    expect(stillThere).toBeLessThan(0.5);
    expect(now).toMatchObject({ setting: 'another', fault: 'low-limit-loose', keepOff: ['past-largest'] });
    expect(anotherSince?.causes[0].cause).toBe('low-limit-loose');
    expect(anotherSince?.causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1);
    expect(anotherSince?.weighed.rides).toBe(2);
    expect(suggestion).toMatchObject({ parameter: 'low-limit', inspectFirst: true });
  });

  it('did not come with work after which the bike shifted well first', () => {
    const { causes, now, anotherSince, clicks, suggestion } = verdictOn([
      { pattern: bentHanger },
      { pattern: bentHanger },
      { pattern: healthyPattern, after: ['hanger', null] },
      { pattern: tooHigh },
    ]);
    expect(causes[0].cause).toBe('hanger-bent');
    expect(now).toMatchObject({ setting: 'another', fault: 'cable-tension-high' });
    expect(anotherSince?.onset.kind).toBe('sudden');
    expect(suggestion.parameter).toBe('cable-tension');
    expect(suggestion.action).not.toMatch(CAME_WITH_IT);
    expect(clicks.mean).toBeLessThan(0);
  });

  it('came with the work where it shows from the first ride after on; one reason to look is enough', () => {
    const { now, suggestion, separates } = verdictOn([
      { pattern: bentHanger },
      { pattern: bentHanger },
      { pattern: tooHigh, ghosts: creeping, after: ['hanger', null] },
    ]);
    expect(now).toMatchObject({ setting: 'another', fault: 'cable-tension-high' });
    expect(suggestion.steps[0]).toMatch(CAME_WITH_IT);
    expect(suggestion.action).not.toMatch(/since it began suddenly/);
    expect(separates?.sentence ?? '').not.toMatch(/anticlockwise/);
  });

  it('is looked at where a chain was lost before, and damage too, whatever is wrong now', () => {
    const { suggestion, now } = verdictOn([
      { pattern: bentHanger, drops: lost('past-largest', 2) },
      { pattern: bentHanger },
      { pattern: tooHigh, after: ['hanger', null] },
    ]);
    expect(now.setting).toBe('another');
    expect(suggestion.inspectFirst).toBe(true);
    expect(suggestion.cautions.join(' ')).toMatch(/into the spokes: stop/);
  });
});

describe('work on another part after a cure that held for a while', () => {
  const cured = [
    { pattern: tooLow },
    { pattern: tooLow },
    { pattern: healthyPattern, after: tension(4) },
    { pattern: healthyPattern },
  ] as const;
  const again = { pattern: slow('to-larger', 0.1, 0.03) };

  it('made what goes wrong since, though it looks like what was cured; that it began with it is reason enough', () => {
    const { causes, now, anotherSince, suggestion } = verdictOn([
      ...cured,
      { ...again, after: ['pulley-gap', 3] },
      again,
    ]);
    expect(causes[0].cause).toBe('cable-tension-low');
    expect(now).toMatchObject({ setting: 'another', fault: 'pulley-gap-large' });
    expect(anotherSince?.causes[0].cause).toBe('pulley-gap-large');
    expect(suggestion.steps[0]).toMatch(/^First take back what was done .*B-screw 3 turns anticlockwise/);
    expect(suggestion.action).not.toMatch(/since it began suddenly/);
  });

  it('made nothing of it where it spoils no such shifts', () => {
    const { anotherSince } = verdictOn([...cured, { ...again, after: ['low-limit', 1] }, again]);
    expect(anotherSince).toBeNull();
  });
});

describe('wear that comes after a cure', () => {
  it('is what is wrong now, though no shift fails', () => {
    const input = adjustedBike([
      { pattern: tooLow },
      { pattern: healthyPattern, after: tension(4) },
      { pattern: healthyPattern },
    ]);
    const newest = input.rides[2];
    const skips = Array.from({ length: 8 }, (_, i) => ({
      timeS: 120 * (i + 1),
      cog: 5,
      torqueNm: 40,
      confidence: 0.95,
    }));
    const rides = [...input.rides.slice(0, 2), { ...newest, events: { ...newest.events, skips } }];
    const { now, suggestion } = diagnose({ ...input, rides });
    expect(now).toMatchObject({ setting: 'another', fault: 'worn-drivetrain' });
    expect(suggestion.parameter).toBe('chain');
  });
});

describe('no other fault is named', () => {
  it.each([
    ['nothing was adjusted', [{ pattern: tooLow }, { pattern: tooHigh }]],
    ['too little was turned', [{ pattern: tooLow }, { pattern: slow('to-larger', 0.1, 0.1), after: tension(1) }]],
    ['it was cured', [{ pattern: tooLow }, { pattern: healthyPattern, after: tension(4) }]],
    ['it was turned too far', [{ pattern: tooLow }, { pattern: tooHigh, after: tension(8) }]],
    [
      'it came back as it was',
      [{ pattern: tooLow }, { pattern: healthyPattern, after: tension(4) }, { pattern: tooLow }],
    ],
    [
      'it is there and a chain was lost beside it',
      [{ pattern: tooLow }, { pattern: tooLow, after: tension(1), drops: lost('past-largest', 1) }],
    ],
  ] as const)('where %s', (_, rides) => {
    const { anotherSince, now } = verdictOn(rides);
    expect(anotherSince).toBeNull();
    expect(now.setting).not.toBe('another');
  });
});

describe('two faults, each with its own cure', () => {
  const rides = [
    { pattern: bentHanger },
    { pattern: bentHanger },
    { pattern: slow('to-smaller', 0.09, 0.05), after: ['hanger', null] },
    { pattern: healthyPattern, after: tension(-1) },
  ] as const;

  it('credits the last work with the fault that stood then, not with the first', () => {
    const { causes, now, cured, laterCured, suggestion } = verdictOn(rides);
    expect(causes[0].cause).toBe('hanger-bent');
    expect(now).toMatchObject({ setting: 'cured', fault: 'no-fault' });
    expect(cured).toBe(true);
    expect(laterCured?.causes[0].cause).toBe('cable-tension-high');
    expect(laterCured?.after).toBe('2026-05-04T18:00:00.000Z');
    expect(suggestion.action).toMatch(/\(cable tension -1 click\) seems to have cured too high a cable tension\.$/);
  });

  it('says so of none where the first work cured it and the last was turned on a sound bike', () => {
    const { laterCured } = verdictOn([
      ...rides.slice(0, 2),
      { pattern: healthyPattern, after: ['hanger', null] },
      { pattern: healthyPattern, after: tension(-1) },
    ]);
    expect(laterCured).toBeNull();
  });
});

describe('work after which shifts fail in another way', () => {
  // slow both ways, the spring's way more, and a new cable clamped with too little tension
  const bothWays = (_: number, larger: boolean) => (larger ? { late: 0.2, missed: 0.1 } : { late: 0.35, missed: 0.25 });
  const rides = [
    { pattern: bothWays },
    { pattern: bothWays },
    { pattern: slow('to-larger', 0.45, 0.35), after: ['cable-and-housing', null] },
  ] as const;

  it('is weighed by the rides since alone, and what was wrong at first by those before', () => {
    const { causes, now, anotherSince, firstUntil, weighed, stillThere, suggestion } = verdictOn(rides);
    expect(now).toMatchObject({ setting: 'another', fault: 'cable-tension-low' });
    expect(anotherSince?.causes[0].cause).toBe('cable-tension-low');
    expect(causes[0].cause).not.toBe('cable-tension-low');
    expect(weighed.rides).toBe(2);
    expect(firstUntil).toBe('2026-05-04T18:00:00.000Z');
    expect(stillThere).toBeLessThan(0.05);
    expect(suggestion.parameter).toBe('cable-tension');
  });

  it('and its cure is credited to what was done then', () => {
    const { laterCured, suggestion } = verdictOn([...rides, { pattern: healthyPattern, after: tension(4) }]);
    expect(laterCured?.causes[0].cause).toBe('cable-tension-low');
    expect(suggestion.action).toMatch(/\(cable tension \+4 clicks\) seems to have cured too low a cable tension\.$/);
  });
});

import { describe, expect, it } from 'vitest';
import { slow, verdictOn } from './now/adjusted-bikes.ts';
import { electronicBike } from './pattern-ride.ts';

const mild = slow('to-larger', 0.1, 0.05);
const severe = slow('to-larger', 0.2, 0.5);

describe('an adjustment that made it worse', () => {
  it('is taken back first, before the same setting is turned on', () => {
    const { suggestion } = verdictOn([
      { pattern: mild, shifts: 20 },
      { pattern: severe, shifts: 20, after: ['cable-tension', -3] },
      { pattern: severe, shifts: 20 },
    ]);
    expect(suggestion.parameter).toBe('cable-tension');
    expect(suggestion.steps[0]).toBe(
      'Take back first what was done on 2026-05-02, since it made shifting worse: turn the barrel adjuster 3 clicks anticlockwise.',
    );
    expect(suggestion.steps[1]).toMatch(/^If that is not enough: .*anticlockwise, one click at a time/);
    expect(suggestion.start).toBe('Turn the barrel adjuster 3 clicks anticlockwise, then ride again.');
    expect(suggestion.sense).toBe(1);
    expect(suggestion.cautions.join(' ')).toMatch(/Anticlockwise unscrews the barrel adjuster/);
  });

  it('is taken back and ridden on where it was another setting', () => {
    const { suggestion } = verdictOn([
      { pattern: mild, shifts: 20 },
      { pattern: severe, shifts: 20, after: ['pulley-gap', 1] },
      { pattern: severe, shifts: 20 },
    ]);
    expect(suggestion).toMatchObject({
      parameter: 'pulley-gap',
      start: 'Turn the B-screw 1 turn anticlockwise, then ride again.',
      sense: -1,
    });
    expect(suggestion.steps.slice(1)).toEqual(['Then ride again before anything more is turned.']);
  });

  it('waits for a look at what can hurt', () => {
    // both ways, with opposite sign at the two ends
    const bent = (cog: number, larger: boolean) => (larger === cog > 6 && (cog > 8 || cog < 3) ? { missed: 0.7 } : {});
    const { suggestion, causes } = verdictOn([
      { pattern: () => ({}), shifts: 20 },
      { pattern: bent, shifts: 20, after: ['cable-tension', 1] },
      { pattern: bent, shifts: 20 },
    ]);
    expect(causes[0].cause).toBe('hanger-bent');
    expect(suggestion.parameter).toBe('hanger');
    expect(suggestion.steps[0]).toMatch(/^Look for damage to hanger/);
    expect(suggestion.steps.at(-1)).toMatch(/^Then take back what was done on .* 1 click clockwise\.$/);
  });

  it('is nothing to take back where it did no harm', () => {
    const { suggestion } = verdictOn([
      { pattern: slow('to-larger') },
      { pattern: slow('to-larger'), after: ['cable-tension', 1] },
    ]);
    expect(suggestion.parameter).toBe('cable-tension');
    expect(suggestion.action).not.toMatch(/Take back/);
    expect(suggestion.sense).toBe(1);
  });
});

describe('trouble that came back by itself', () => {
  const relapse = [
    { pattern: severe },
    { pattern: () => ({}), after: ['cable-tension', 2] as const },
    { pattern: severe },
    { pattern: severe },
  ];

  it('is looked into before the same is turned again, and did not grow', () => {
    const { suggestion, onset, causes } = verdictOn(relapse);
    expect(causes[0].cause).toBe('cable-tension-low');
    expect(suggestion.steps[0]).toMatch(
      /^It was gone after what was done on 2026-05-02, and came back by itself: before it is turned again, look whether the cable slips in its clamp/,
    );
    expect(suggestion.start).toMatch(/^Look whether the cable slips .* Then: .* one click anticlockwise/);
    expect(onset.kind).not.toBe('gradual');
    expect(causes[0].evidence.join(' ')).toMatch(
      /the trouble went away for a while \(0 of \d+ shifts went wrong\) and came back with the ride of 2026-05-05/,
    );
    expect(causes[0].evidence.join(' ')).not.toMatch(/It grew over the rides|it helped/);
  });

  it('says what can have moved on an electronic bike', () => {
    const moved = relapse.map((one) => (one.after ? { ...one, after: ['index-offset', 2] as const } : one));
    expect(verdictOn(moved, electronicBike).suggestion.steps[0]).toMatch(
      /look whether derailleur, hanger and rear wheel/,
    );
  });
});

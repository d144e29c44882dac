import { describe, expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import { count, facts, now, seen } from './made-facts.ts';
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
      'First take back what was done on 2026-05-02, since it made shifting worse: turn the barrel adjuster 3 clicks anticlockwise.',
    );
    expect(suggestion.steps[1]).toMatch(/^If that is not enough: look .*anticlockwise, one click at a time/);
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

  it('waits for what is mended by parts, and for a look at a limit past which a chain was lost', () => {
    const period = (late: number) => ({
      ...count(100, late),
      ghostShifts: 0,
      troubleRate: late / 100,
      low: 0,
      high: 1,
    });
    const made: AdjustmentComparison = {
      ...{ at: '2026-05-07T12:00:00Z', parameter: 'cable-tension', amount: 6, unit: 'clicks' },
      ...{ before: period(5), after: period(40), probabilityBetter: 0.001, cogs: [], endCog: null },
      ...{
        shiftsStillNeeded: null,
        cameBack: null,
        wentOnGrowing: null,
        oppositeWays: null,
        sharedPeriod: false,
        cancelledOut: false,
        together: null,
        followedBy: null,
      },
      ...{ leftOut: { before: 0, after: 0 }, skipping: null, group: 0 },
    };
    const failing = seen({ all: count(600, 40) });
    const since = { last: made, seen: failing, lost: () => 0 };
    const stepAfter = (cause: Cause, keepOff: ReadonlySet<'past-largest'> = new Set()) =>
      suggest(
        facts({
          seen: failing,
          ranked: [{ cause, probability: 0.9 }],
          comparisons: [made],
          now: now({ cause, fault: cause, keepOff, since }),
        }),
      );
    for (const cause of ['cable-friction', 'worn-drivetrain'] as const) {
      const { steps, start } = stepAfter(cause);
      expect(steps).toHaveLength(2);
      expect(steps[0]).not.toMatch(/take back/i);
      expect(steps[1]).toMatch(/^Then take back what was done on 2026-05-07, .* 6 clicks clockwise\.$/);
      expect(start).not.toMatch(/ride again/);
    }
    const looked = stepAfter('cable-tension-low', new Set(['past-largest'])).steps;
    expect(looked.map((step) => step.split(' ').slice(0, 3).join(' '))).toEqual([
      'First have the',
      'Then take back',
      'Then ride again',
    ]);
  });

  it('is nothing to take back where it did no harm', () => {
    const { suggestion } = verdictOn([
      { pattern: slow('to-larger') },
      { pattern: slow('to-larger'), after: ['cable-tension', 1] },
    ]);
    expect(suggestion.parameter).toBe('cable-tension');
    expect(suggestion.action).not.toMatch(/take back/i);
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
      /^First look whether the cable slips in its clamp.*: the trouble was gone after what was done on 2026-05-02, and came back by itself\.$/,
    );
    expect(suggestion.start).toBe('Look before the same is turned again.');
    expect(suggestion.steps[1]).toMatch(/one click anticlockwise/);
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

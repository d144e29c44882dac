import { describe, expect, it } from 'vitest';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import { skippingNow } from '../../src/diagnosis/now/skipping-now.ts';
import { facts, now, seen } from './made-facts.ts';
import { cableBike, healthyPattern, patternRide } from './pattern-ride.ts';

const last = { at: '2026-05-02T18:00:00Z', parameter: 'pulley-gap', amount: -2 } as const;

describe('a step that turns nothing', () => {
  const cured = (skipping: { skips: number; inNewest: number } | null, change = {}) =>
    suggest(
      facts({
        now: now({ setting: 'cured', fault: 'no-fault', skipping, since: { last, seen: seen(), lost: () => 0 } }),
        comparisons: [{ ...last, unit: 'turns', note: '', probabilityBetter: 0.99 }] as never,
        ...change,
      }),
    );

  it('does not pass over a chain that skips', () => {
    const { steps, verify, action } = cured({ skips: 4, inNewest: 4 });
    expect(steps[0]).toBe(
      'First measure the chain with a chain checker: it skipped 4 times since 2026-05-02, all in the newest ride.',
    );
    expect(action).toContain('Leave it as it is');
    expect(verify).toMatch(/^Of that nothing more needs to be tried/);
    expect(cured({ skips: 14, inNewest: 10 }).steps[0]).toMatch(/14 times .*, 10 of them in the newest ride\.$/);
  });

  it('asks for no chain where none skips, and for what else skips where the chain was seen to', () => {
    const { action, verify } = cured(null);
    expect(action).not.toMatch(/chain/);
    expect(verify).toMatch(/^Nothing more needs to be tried/);
    const seenTo = [{ at: '2026-05-03T12:00:00Z', parameter: 'chain', unit: 'done' }];
    expect(cured({ skips: 4, inNewest: 4 }, { seenTo }).steps[0]).toMatch(/^First look at the most used cogs/);
  });

  it('says that an end cog is tried on a stand where limit and hanger were seen to', () => {
    const seenTo = (['low-limit', 'hanger'] as const).map((parameter) => ({
      ...{ at: '2026-05-02T18:00:00Z', parameter, unit: 'done' as const },
    }));
    const { steps, start } = suggest(
      facts({
        now: now({ setting: 'cured', fault: 'no-fault', keepOff: new Set(['past-largest'] as const) }),
        ...{ foundRight: seenTo, seenTo },
      }),
    );
    expect(steps[0]).toMatch(/^First shift onto the largest cog on a stand/);
    expect(start).not.toBe('');
  });
});

describe('a chain that skips by now', () => {
  const ride = (day: number, count: number) => {
    const made = patternRide({ pattern: healthyPattern, day });
    const skips = Array.from({ length: count }, (_, i) => ({
      timeS: 60 * (i + 1),
      cog: 4,
      torqueNm: 40,
      confidence: 0.9,
    }));
    return { ...made, events: { ...made.events, skips } };
  };
  const skipping = (...counts: readonly number[]) =>
    skippingNow(
      counts.map((count, i) => ride(2 * i, count)),
      { last: null, seen: seen({ skips: () => counts.reduce((a, b) => a + b), pedallingHours: 40 }) },
      cableBike,
    );

  it('is told by the newest ride too, which many good ones before it would hide', () => {
    expect(skipping(0, 0, 9)).toEqual({ skips: 9, inNewest: 9 });
    expect(skipping(9, 0, 0)).toBeNull();
  });

  it('does not by a slip or two of the sensors', () => {
    expect(skipping(0, 2)).toBeNull();
  });
});

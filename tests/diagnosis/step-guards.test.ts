import { describe, expect, it } from 'vitest';
import type { Look } from '../../src/adjustments/looks.ts';
import { forEither } from '../../src/diagnosis/next-step/for-either.ts';
import { senseOfStep } from '../../src/diagnosis/next-step/sense-of-step.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import { verifyNow } from '../../src/diagnosis/next-step/verify-now.ts';
import type { Direction } from '../../src/shifts/ride-events.ts';
import { count, facts, now, seen } from './made-facts.ts';

const last = { at: '2026-05-07T12:00:00Z', parameter: 'pulley-gap' };

describe('which way a step turns', () => {
  it('is none while the last adjustment is to be ridden on first', () => {
    const step = { parameter: 'pulley-gap' };
    expect(senseOfStep(step, facts())).toBe(1);
    expect(senseOfStep(step, facts({ now: now({ setting: 'untested' }) }))).toBeNull();
  });
});

describe('the shifts that prove a cure', () => {
  const failedBefore = seen({ all: count(600, 200), shifts: () => count(50, 17) });
  const asked = (since: ReturnType<typeof seen>): number => {
    const changes = { since: { last: last as never, seen: since, lost: () => 0 } };
    const said = verifyNow('pulley-gap-small', facts({ seen: failedBefore, now: now(changes) }));
    return Number(/at least (\d+) shifts/.exec(said)?.[1]);
  };

  it('are those since the last adjustment only where some of them went wrong', () => {
    // a third of all went wrong, which is soon proved; of those since then one in forty, which is not
    expect(asked(seen({ all: count(40, 0), shifts: () => count(20, 0) }))).toBeLessThan(15);
    expect(asked(seen({ all: count(40, 1), shifts: () => count(20, 1) }))).toBeGreaterThan(40);
  });

  it('go the way in which the fault shows, though one went wrong the other way since', () => {
    const oneWay = (failing: Direction, shifts: number, late: number) =>
      seen({
        all: count(2 * shifts, late),
        shifts: (direction, onto) => count(onto ? 10 : shifts, direction === failing ? late : 0),
      });
    const check = (stray: Direction): string => {
      const since = { last: last as never, seen: oneWay(stray, 40, 1), lost: () => 0 };
      return verifyNow('cable-tension-low', facts({ seen: oneWay('to-larger', 300, 80), now: now({ since }) }));
    };
    expect(check('to-smaller')).toMatch(/at least \d+ shifts to larger cogs/);
    expect(check('to-larger')).toMatch(/at least \d\d shifts to larger cogs/);
  });
});

describe('between two faults', () => {
  it('a limit past which a chain was lost is looked at before what else comes first in the order of work', () => {
    const either = (lost: number): string => {
      const clicksFor = () => ({ parameter: 'cable-tension', unit: 'clicks', mean: 3, low: 1, high: 5 }) as const;
      const drops = (side: string): number => (side === 'past-largest' ? lost : 0);
      return forEither(['low-limit-tight', 'cable-tension-low'], facts({ clicksFor, drops })).steps[0];
    };
    expect(either(0)).toMatch(/^See whether it is too low a cable tension/);
    expect(either(1)).toMatch(/^The chain has been lost past the largest cog/);
  });

  it('a part that was just aligned is not asked for again', () => {
    const steps = (seenTo: readonly Look[]) => forEither(['worn-drivetrain', 'hanger-bent'], facts({ seenTo })).steps;
    expect(steps([]).join(' ')).toMatch(/bent derailleur hanger/);
    expect(steps([{ at: last.at, parameter: 'hanger', unit: 'done' }]).join(' ')).not.toMatch(/hanger/);
  });
});

describe('a limit that was seen to', () => {
  it('is tried on a stand once the hanger, which lets the chain past as well, was gauged', () => {
    const step = (seenTo: readonly Look[], lost = 2): string => {
      const none = { asked: 0, shifts: 0, reached: 0, trouble: 0, lost: 0 };
      const before = { asked: 9, shifts: 9, reached: 9, trouble: 0, lost };
      const trial = { end: 'past-largest', fromMs: 0, before, since: none, holds: 0.6 } as const;
      const cause = 'low-limit-loose' as const;
      const keepOff = new Set(lost > 0 ? (['past-largest'] as const) : []);
      const since = { last: last as never, seen: seen({ all: count(0, 0) }), lost: () => 0 };
      const changes = { cause, fault: cause, setting: 'untested', keepOff, trial, since } as const;
      return suggest(facts({ ranked: [{ cause, probability: 0.95 }], seenTo, now: now(changes) })).steps[0];
    };
    expect(step([])).toMatch(
      /^Have the hanger gauged, .* then try the limit on a stand before anything more is turned/,
    );
    expect(step([{ at: last.at, parameter: 'hanger', unit: 'done' }])).toMatch(/^Try it on a stand/);
    expect(step([], 0)).toMatch(/^Try it on a stand/);
  });

  it('is told of before what all shifts leave open only where a chain had been lost past it', () => {
    const step = (lost: number): string => {
      const tried = { asked: 3, shifts: 3, reached: 3, trouble: 0, lost: 0 };
      const before = { asked: 9, shifts: 9, reached: 9, trouble: 0, lost };
      const trial = { end: 'past-largest', fromMs: 0, before, since: tried, holds: 0.6 } as const;
      const since = { last: last as never, seen: seen(), lost: () => 0 };
      const setting = 'unsettled' as const;
      return suggest(
        facts({
          ranked: [
            { cause: 'low-limit-loose', probability: 0.6 },
            { cause: 'no-fault', probability: 0.4 },
          ],
          undecided: { between: ['low-limit-loose', 'no-fault'], becauseOf: ['x'], sentence: 'Undecided.' },
          now: now({ cause: 'low-limit-loose', fault: 'low-limit-loose', setting, trial, since }),
        }),
      ).steps[0];
    };
    expect(step(1)).toMatch(/^Shift onto the largest cog on a stand, then ride, before anything more is turned/);
    expect(step(0)).toMatch(/^Turn nothing yet: it is not decided whether there is a fault/);
  });
});

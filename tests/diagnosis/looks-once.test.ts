import { describe, expect, it } from 'vitest';
import { causes } from '../../src/diagnosis/causes.ts';
import { forEither } from '../../src/diagnosis/next-step/for-either.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { Fault } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { withOtherWork } from '../../src/diagnosis/next-step/with-other-work.ts';
import { count, facts, now, seen } from './made-facts.ts';

const faults = causes.filter((cause): cause is Fault => cause !== 'no-fault');
const sudden = { kind: 'sudden', at: '2026-05-07T12:00:00Z', rideBeforeAt: null, probability: 0.9 } as const;

describe('a hanger that is checked since the fault began suddenly', () => {
  it('is not asked for by two steps where the limit comes first, whose step looks at the hanger itself', () => {
    const { trials } = now();
    const lost = { ...trials['past-largest'], holds: 0 };
    const { steps } = suggest(
      facts({
        ranked: [{ cause: 'low-limit-tight', probability: 0.9 }],
        seen: seen({ all: count(600, 90) }),
        drops: (side) => (side === 'past-largest' ? 1 : 0),
        onset: sudden,
        now: now({ keepOff: new Set(['past-largest']), trials: { ...trials, 'past-largest': lost } }),
      }),
    );
    expect(steps.filter((step) => /hanger checked, since it began suddenly/.test(step))).toHaveLength(1);
  });

  it('is not asked for again where one of two faults is a bent hanger, in whatever words its look is told', () => {
    for (const likelier of faults.filter((fault) => fault !== 'hanger-bent')) {
      const made = facts({
        ranked: [{ cause: likelier, probability: 0.6 }],
        clicksFor: () => ({ parameter: 'cable-tension', unit: 'clicks', mean: 3, low: 1, high: 5 }),
        onset: sudden,
      });
      const reworded = { ...forEither([likelier, 'hanger-bent'], made), start: 'The look in other words.' };
      const checks = withOtherWork(reworded, made).steps.filter((said) => /^First look for damage/.test(said));
      expect([likelier, checks]).toEqual([likelier, []]);
    }
  });
});

it('has a step that turns nothing turn nothing else after a look that may turn a limit screw, and only then', () => {
  const said = (lost: boolean): string => {
    const keepOff = new Set(lost ? (['past-largest'] as const) : []);
    const { steps, start } = suggest(facts({ seen: seen({ all: count(400, 1) }), now: now({ keepOff }) }));
    return [...steps, start].join(' ');
  };
  expect(said(false)).toMatch(/^Turn nothing yet: .* Nothing needs to be turned while/);
  expect(said(true)).toMatch(/Turn nothing else yet: /);
  expect(said(true)).not.toMatch(/Nothing needs to be turned/);
});

import { describe, expect, it } from 'vitest';
import type { Look } from '../../src/adjustments/looks.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import type { Fault } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import { count, facts, now, seen } from './made-facts.ts';

const looked = (...parameters: Look['parameter'][]): Look[] =>
  parameters.map((parameter) => ({ at: '2026-05-07T12:00:00Z', parameter, unit: 'done' }));
const stepFor = (cause: Fault, foundRight: readonly Look[], next: Fault = 'hanger-bent') =>
  suggest(
    facts({
      ranked: [
        { cause, probability: 0.9 },
        { cause: next, probability: 0.1 },
      ],
      seen: seen({ all: count(600, 60) }),
      foundRight,
    }),
  );

describe('the step after a look that found nothing', () => {
  it('leaves the part as it is and goes on to the next likeliest', () => {
    const { action, start, parameter } = stepFor('pulley-gap-small', looked('pulley-gap'));
    expect(action).toBe(
      'Leave the pulley gap (B-screw) as it is: looked at and found right (2026-05-07). See next whether it is a bent derailleur hanger.',
    );
    expect([start, parameter]).toEqual(['A hanger gauge tells within a minute.', 'hanger']);
    expect(stepFor('pulley-gap-small', looked('hanger')).action).toMatch(/^Measure the gap/);
  });

  it('is proved by what the next likeliest makes fail', () => {
    const ranked = [
      { cause: 'cable-friction', probability: 0.55 },
      { cause: 'cable-tension-low', probability: 0.3 },
    ] as const;
    const failing = seen({ all: count(600, 120), shifts: () => count(300, 60) });
    const { verify } = suggest(facts({ ranked, seen: failing, foundRight: looked('cable-and-housing') }));
    expect(verify).toMatch(/shifts to larger cogs/);
  });

  it('goes from chain to cogs, and from cogs to chain', () => {
    expect(stepFor('worn-drivetrain', looked('chain')).action).toMatch(/most used cogs for hooked/);
    expect(stepFor('worn-drivetrain', looked('cassette')).action).toMatch(/Measure the chain/);
    expect(stepFor('worn-drivetrain', looked('chain', 'cassette')).action).toMatch(/freehub slips/);
  });

  it('asks for a mechanic where all that is in question was looked at', () => {
    const all = looked('pulley-gap', 'hanger');
    expect(stepFor('pulley-gap-small', all).action).toMatch(/Have a qualified mechanic look at the bike\.$/);
  });
});

it('does not pass over a look that found right what was turned too far', () => {
  const tooFar = { fault: 'cable-tension-high', amount: 6, byLast: true } as never;
  const action = (foundRight: readonly Look[]): string =>
    suggest(facts({ seen: seen({ all: count(300, 20) }), now: now({ setting: 'overdone', tooFar }), foundRight }))
      .action;
  expect(action([])).toMatch(/^The last adjustment went too far\. Take back a part of the cable tension/);
  expect(action(looked('hanger'))).toBe(action([]));
  expect(action(looked('cable-tension'))).toMatch(
    /^The last adjustment went too far\. The cable tension was found right on 2026-05-07, .* look once more, .* Take back a part/,
  );
});

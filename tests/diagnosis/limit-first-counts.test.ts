import { expect, it } from 'vitest';
import { limitFirst } from '../../src/diagnosis/next-step/look-at-limit.ts';
import { facts, now, seen } from './made-facts.ts';

it('counts only the shifts that got onto the end cog, and says so, since missed ones are judged too', () => {
  const { trials } = now();
  const trial = trials['past-smallest'];
  const since = { asked: 3, shifts: 3, reached: 2, trouble: 1, lost: 0 };
  const last = { at: '2026-05-04T18:00:00.000Z', parameter: 'high-limit' } as const;
  const { steps } = limitFirst(
    facts({
      now: now({
        keepOff: new Set(['past-smallest']),
        since: { last, seen: seen(), lost: () => 0 },
        trials: { ...trials, 'past-smallest': { ...trial, since, holds: 0.5 } },
      }),
    }),
  );
  expect(steps.join(' ')).toMatch(/and 2 shifts that got there since do not tell whether it stays on/);
});

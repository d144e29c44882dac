import { describe, expect, it } from 'vitest';
import type { CassetteEnd } from '../../../src/adjustments/end-cog-count.ts';
import type { Look } from '../../../src/adjustments/looks.ts';
import { suggest } from '../../../src/diagnosis/next-step/suggest.ts';
import { overtakenLooks } from '../../../src/diagnosis/now/overtaken-looks.ts';
import { facts, now, seen } from '../made-facts.ts';

const at = (day: number): string => `2026-04-${day}T12:00:00.000Z`;
const look = (parameter: Look['parameter'], day: number): Look => ({ at: at(day), parameter, unit: 'done' });
const ride = (day: number, ...lost: CassetteEnd[]) => ({
  startMs: Date.parse(at(day)),
  events: { chainDrops: lost.map((side) => ({ side, timeS: 60 })) },
});
const overtaken = (looks: Look[], rides: ReturnType<typeof ride>[]) =>
  overtakenLooks(looks, { rides, adjustments: [], beganMs: Number.NEGATIVE_INFINITY });

describe('a part that was seen to before a chain was lost', () => {
  it('is told with when it was lost, and only where nobody looked since', () => {
    const lost = [ride(14), ride(17, 'past-smallest')];
    expect(overtaken([look('hanger', 16)], lost)).toEqual([
      { ...look('hanger', 16), end: 'past-smallest', lostAt: '2026-04-17T12:01:00.000Z' },
    ]);
    expect(overtaken([look('hanger', 15), look('hanger', 16)], lost).map((one) => one.at)).toEqual([at(16)]);
    expect(overtaken([look('hanger', 16), look('hanger', 18)], lost)).toEqual([]);
    // the other limit stops no chain there, and one that never stood is not asked for again
    expect(overtaken([look('low-limit', 16), look('high-limit', 13)], lost)).toEqual([]);
    expect(overtaken([look('hanger', 16)], [ride(14), ride(17)])).toEqual([]);
    expect(overtaken([look('hanger', 16)], [ride(14), { ...lost[1], startMs: Number.NaN }])).toEqual([]);
  });

  it('is asked for again with the reason, by whichever step looks there', () => {
    const said = (changes: Parameters<typeof facts>[0]) =>
      suggest(
        facts({
          seen: seen({ all: { ...seen().all, trouble: 40, late: 40 } }),
          overtaken: overtaken([look('hanger', 16)], [ride(14), ride(17, 'past-smallest')]),
          ...changes,
        }),
      ).action;
    const why =
      'Again, since the chain was lost past the smallest cog on 2026-04-17, after the derailleur hanger was seen to on 2026-04-16.';
    const ranked = (cause: 'high-limit-loose' | 'cable-tension-low') => [{ cause, probability: 0.97 }] as const;
    const keepOff = new Set(['past-smallest'] as const);
    expect(said({ ranked: ranked('high-limit-loose') })).toContain(why);
    expect(said({ ranked: ranked('cable-tension-low'), now: now({ keepOff }) }).split(why)).toHaveLength(2);
    expect(said({ ranked: ranked('cable-tension-low') })).not.toContain('Again');
    expect(said({ ranked: ranked('high-limit-loose'), overtaken: [] })).not.toContain('Again');
  });
});

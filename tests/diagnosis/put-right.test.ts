import { describe, expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import type { ShiftsWellSince } from '../../src/diagnosis/diagnosis.ts';
import { putRight } from '../../src/diagnosis/next-step/put-right.ts';
import { suggest } from '../../src/diagnosis/next-step/suggest.ts';
import { count, facts, now } from './made-facts.ts';

describe('newest rides that shift well, with no fault to name before them', () => {
  const since: ShiftsWellSince = {
    at: '2026-05-10T08:00:00.000Z',
    ...{ shifts: 300, trouble: 0, there: { shifts: 300, trouble: 0 } },
    ...{ putRight: false, adjusted: true, entryAt: null },
  };
  const takenBack = (probabilityBetter: number, at = '2026-05-09T18:00:00.000Z') =>
    ({
      ...{ at, parameter: 'cable-tension', amount: -6, unit: 'clicks', group: 0, probabilityBetter },
      ...{ before: count(200, 30), after: count(300, 0), together: null, cameBack: null, oppositeWays: null },
    }) as unknown as AdjustmentComparison;
  const said = (comparisons: readonly AdjustmentComparison[], change: Partial<ShiftsWellSince> = {}): string =>
    putRight(
      { ...since, ...change },
      facts({ comparisons, ranked: [{ cause: 'no-fault', probability: 0.7 }] }),
    ).steps.join(' ');

  it('are put down to what was done last where that helped for sure: a wrong turn that was taken back', () => {
    expect(said([takenBack(0.999)])).toMatch(
      /the bike shifts well \(.*\), and it got better with what was done on 2026-05-09 \(cable tension -6 clicks\)\.$/,
    );
  });

  it('are not where it is not sure that it helped, or nothing was adjusted between', () => {
    for (const words of [said([takenBack(0.8)]), said([takenBack(0.999)], { adjusted: false }), said([])])
      expect(words).toMatch(/and before it no fault was sure\.$/);
  });
});

it('goes on from work that helped for sure, went the right way and left a little, though rides lie between', () => {
  const since: ShiftsWellSince = {
    at: '2026-05-14T08:00:00.000Z',
    ...{ shifts: 277, trouble: 3, there: { shifts: 119, trouble: 2 } },
    ...{ putRight: true, adjusted: false, entryAt: null },
  };
  const said = (amount: number, ...later: AdjustmentComparison[]): string => {
    const click = {
      ...{ at: '2026-05-09T18:00:00.000Z', parameter: 'cable-tension', amount, unit: 'clicks', group: 0 },
      ...{ probabilityBetter: 0.999, before: count(1184, 85), after: count(537, 6) },
      ...{ together: null, cameBack: null, oppositeWays: null },
    } as unknown as AdjustmentComparison;
    const { steps, start } = putRight(
      since,
      facts({ comparisons: [click, ...later], ranked: [{ cause: 'cable-tension-low', probability: 0.98 }] }),
    );
    return [...steps, start].join(' ');
  };
  expect(said(1)).toMatch(
    /was the right way: it got better with what was done on 2026-05-09 \(cable tension \+1 click\)\./,
  );
  expect(said(1)).toMatch(/go on the same way, a little at a time\./);
  // one that went the other way, or was not the last, is no way to go on
  expect(said(-1)).toMatch(
    /It may come back\. If something was adjusted, aligned or replaced before that ride, log what and when/,
  );
  const chain = {
    at: '2026-05-11T18:00:00.000Z',
    parameter: 'chain',
    amount: null,
    group: 1,
    probabilityBetter: 0.5,
    after: count(277, 3),
  };
  expect(said(1, chain as unknown as AdjustmentComparison)).toMatch(/log what and when/);
});

it('says in short that nothing is turned, and what may come of it, unless something else comes first', () => {
  const wellSince: ShiftsWellSince = {
    at: '2026-05-10T08:00:00.000Z',
    ...{ shifts: 300, trouble: 0, there: { shifts: 300, trouble: 0 } },
    ...{ putRight: true, adjusted: false, entryAt: null },
  };
  expect(suggest(facts({ wellSince })).inShort).toBe('Turn nothing. It may come back.');
  const logged = { ...wellSince, entryAt: '2026-05-09T18:00:00.000Z' };
  expect(suggest(facts({ wellSince: logged })).inShort).toBe('Turn nothing.');
  const skipping = { skips: 9, inNewest: null };
  expect(suggest(facts({ wellSince, now: now({ skipping }) })).inShort).toBeUndefined();
  expect(suggest(facts()).inShort).toBeUndefined();
});

import { describe, expect, it } from 'vitest';
import type { AdjustmentComparison } from '../../src/adjustments/compare-adjustments.ts';
import { DECIDED_AT } from '../../src/adjustments/compare-rates.ts';
import { adjustmentSentences, onsetSentence } from '../../src/diagnosis/sentences/story-sentences.ts';
import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';

const count = (missed: number) => ({ shifts: 100, late: 0, missed, overshot: 0 });
const comparison = (probabilityBetter: number): AdjustmentComparison =>
  ({
    at: '2026-05-04T08:00:00Z',
    parameter: 'cable-tension',
    amount: 1,
    unit: 'clicks',
    group: 0,
    sharedPeriod: false,
    leftOut: { before: 0, after: 0 },
    before: count(10),
    after: count(12),
    probabilityBetter,
  }) as unknown as AdjustmentComparison;

describe('what an adjustment did, among the evidence', () => {
  const told = (probabilityBetter: number): string =>
    adjustmentSentences('cable-tension-low', [comparison(probabilityBetter)]).join(' ');

  it('is no count of nothing', () => {
    const of = (before: number, after: number): string =>
      adjustmentSentences('cable-tension-low', [
        {
          ...comparison(0.5),
          before: { ...count(10), shifts: before },
          after: { ...count(12), shifts: after },
        } as never,
      ]).join(' ');
    expect(of(1571, 900)).toMatch(/: 10 of 1,571 shifts went wrong before, 12 of 900 after\.$/);
    // what has no before or no after speaks for no cause
    expect([of(1571, 0), of(0, 1571)]).toEqual(['', '']);
  });

  it('is called by the same rule as beside the adjustment itself', () => {
    const rates = { shifts: 100, late: 0, missed: 10, overshot: 0, troubleRate: 0.1, low: 0.05, high: 0.18 };
    const beside = (probabilityBetter: number): string =>
      adjustmentVerdict({
        before: rates,
        after: rates,
        probabilityBetter,
        shiftsStillNeeded: null,
        leftOut: { before: 0, after: 0 },
      } as unknown as Parameters<typeof adjustmentVerdict>[0]);
    for (const probabilityBetter of [0, 0.04, 0.06, 0.09, 0.5, 0.92, 0.94, 0.96, 1]) {
      expect(/made shifting worse/.test(told(probabilityBetter))).toBe(
        /made shifting worse/.test(beside(probabilityBetter)),
      );
      expect(/it helped/.test(told(probabilityBetter))).toBe(/^It helped/.test(beside(probabilityBetter)));
    }
    expect(told(DECIDED_AT)).toMatch(/: it helped\.$/);
    expect(told(0.5)).toBe('2026-05-04, cable tension +1 click: 10 of 100 shifts went wrong before, 12 of 100 after.');
  });

  it('is told once of adjustments made together, and with the shifts that were left out', () => {
    const [plus, minus] = [3, -3].map((amount) => ({ ...comparison(1), amount, sharedPeriod: true }));
    expect(adjustmentSentences('cable-tension-low', [plus, minus])).toEqual([
      '2026-05-04, cable tension +3 clicks and cable tension -3 clicks: 10 of 100 shifts went wrong before, 12 of 100 after: together they helped.',
    ]);
    const gap = { ...comparison(1), parameter: 'pulley-gap', amount: 1, unit: 'turns', sharedPeriod: true } as const;
    expect(adjustmentSentences('cable-tension-low', [plus, gap])[0]).toMatch(/clicks \(together with other work\): /);
    const leftOut = { before: 164, after: 0 };
    expect(adjustmentSentences('cable-tension-low', [{ ...comparison(0.5), leftOut }])[0]).toMatch(
      /10 of 100 shifts went wrong before \(164 shifts from before it began left out\), 12 of 100 after\.$/,
    );
  });

  it('owns that a gap may have been taken for the other way round before the turn that helped', () => {
    const said = (cause: 'pulley-gap-small' | 'pulley-gap-large', amount: number, better = 0.99): string =>
      adjustmentSentences(cause, [{ ...comparison(better), parameter: 'pulley-gap', amount, unit: 'turns' }]).join(' ');
    const owned = /look much alike in a log: it is the turn that helped which tells them apart/;
    expect(said('pulley-gap-large', -2)).toMatch(owned);
    expect(said('pulley-gap-small', 2)).toMatch(owned);
    for (const words of [said('pulley-gap-small', -2), said('pulley-gap-large', 2), said('pulley-gap-large', -2, 0.6)])
      expect(words).not.toMatch(owned);
  });

  it('is told of a limit screw by its end cog', () => {
    const [before, after] = [
      { asked: 2, shifts: 2, reached: 2, trouble: 1, lost: 1 },
      { asked: 38, shifts: 38, reached: 38, trouble: 0, lost: 0 },
    ];
    const limit = { ...comparison(0.96), parameter: 'low-limit', amount: 0.25, unit: 'turns' } as const;
    const said = (tried: typeof after): string[] =>
      adjustmentSentences('low-limit-loose', [{ ...limit, endCog: { end: 'past-largest', before, after: tried } }]);
    expect(said(after)).toEqual([
      '2026-05-04, low limit screw +0.25 turns: 1 of 2 shifts onto the largest cog went wrong before (the chain was lost past it once), 0 of 38 since: it helped.',
    ]);
    expect(said({ ...after, shifts: 0 })).toEqual([]);
  });

  it('is told of a chain or cassette by the skips', () => {
    const skipping = {
      ...{ before: { skips: 2, hours: 2.7 }, after: { skips: 0, hours: 1.3 } },
      ...{ cogs: { before: [], after: [] }, probabilityFewer: 0.79, hoursStillNeeded: 6 },
    };
    const chain = { ...comparison(0.01), parameter: 'chain', amount: null, unit: 'done', skipping } as const;
    const said = (change: Partial<typeof skipping>): string[] =>
      adjustmentSentences('worn-drivetrain', [{ ...chain, skipping: { ...skipping, ...change } }]);
    expect(said({})).toEqual([
      '2026-05-04, chain replaced: 2 skips seen in 2.7 hours of pedalling before, 0 in 1.3 hours since.',
    ]);
    expect(said({ probabilityFewer: 0.96 })[0]).toMatch(/since: it helped\.$/);
    expect(said({ after: { skips: 0, hours: 0 } })).toEqual([]);
  });

  it('is written as everywhere', () => {
    const part = (changes: Partial<AdjustmentComparison>): string =>
      adjustmentSentences('hanger-bent', [{ ...comparison(0.5), ...changes }])[0].split(':')[0];
    expect(part({ amount: -1 })).toBe('2026-05-04, cable tension -1 click');
    expect(part({ parameter: 'hanger', amount: null })).toBe('2026-05-04, derailleur hanger aligned or replaced');
  });
});

it('says that a fault was there from the first ride on only where there is a second', () => {
  const steady = { kind: 'steady', at: '2026-05-04T08:00:00Z', rideBeforeAt: null, probability: 0.99 } as const;
  expect(onsetSentence(steady, 1, true, [])).toEqual([]);
  expect(onsetSentence(steady, 2, true, [])).toEqual(['It was there from the first ride on (99 %).']);
  expect(onsetSentence({ ...steady, kind: 'gradual' }, 1, true, [])).toHaveLength(1);
});

it('says how a fault began only for the case that it is the one, where it is not named alone', () => {
  const sudden = { kind: 'sudden', at: '2026-05-04T08:00:00Z', rideBeforeAt: null, probability: 0.9 } as const;
  expect(onsetSentence(sudden, 2, false, [])).toEqual([
    'If it is this, it began suddenly, about 2026-05-04 08:00 UTC (90 %).',
  ]);
  expect(onsetSentence(sudden, 2, true, [])).toEqual(['It began suddenly, about 2026-05-04 08:00 UTC (90 %).']);
});

it('names what was done between the last ride without a fault and the first with it', () => {
  const sudden = {
    kind: 'sudden',
    at: '2026-05-05T08:00:00Z',
    rideBeforeAt: '2026-05-03T08:00:00Z',
    probability: 0.999,
  } as const;
  const said = (...at: string[]): string =>
    onsetSentence(
      sudden,
      3,
      true,
      at.map((one, i) => ({ ...comparison(0.5), at: one, amount: 1 + i })),
    )[0];
  const between = 'It began suddenly, between the ride of 2026-05-03 08:00 UTC and that of 2026-05-05 08:00 UTC';
  expect(said('2026-05-01T08:00:00Z', '2026-05-06T08:00:00Z')).toBe(`${between} (over 99 %).`);
  expect(said('2026-05-04T08:00:00Z')).toBe(
    `${between}, with cable tension +1 click on 2026-05-04 between them (over 99 %).`,
  );
  expect(said('2026-05-04T08:00:00Z', '2026-05-04T09:00:00Z')).toContain(
    ', with cable tension +1 click on 2026-05-04 and cable tension +2 clicks on 2026-05-04 between them',
  );
});

it('says how a fault began only where that is likelier than not', () => {
  const began = (probability: number): string[] =>
    onsetSentence({ kind: 'gradual', at: null, rideBeforeAt: null, probability }, 3, true, []);
  expect(began(0.46)).toEqual([]);
  expect(began(0.54)).toEqual(['It grew over the rides (54 %).']);
});

import { expect, it } from 'vitest';
import { troubleSentence } from '../../web/bike/trouble-sentence.ts';

it('tells the trouble, and what it counts', () => {
  const said = (changes = {}): string | null =>
    troubleSentence({
      state: {
        judgedShifts: 60,
        judgedRides: 2,
        since: 'first-ride',
        sinceAt: null,
        troubleRate: 0.25,
        low: 0.1,
        high: 0.4,
        ...changes,
      },
    } as never);
  expect(said()).toContain('Of 60 judged shifts over 2 rides, 25 % came late');
  expect(said({ judgedRides: 1 })).toContain(' over 1 ride, ');
  const sinceAt = '2026-05-04T12:00:00.000Z';
  expect(said({ since: 'last-adjustment', sinceAt })).toContain(
    'Of 60 judged shifts since the last adjustment (4 May 2026), ',
  );
  expect(said({ since: 'onset', sinceAt })).toContain(
    'Of 60 judged shifts since a fault began suddenly (4 May 2026), ',
  );
  expect(said({ troubleRate: null })).toBeNull();
});

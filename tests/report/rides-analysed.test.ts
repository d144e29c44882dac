import { expect, it } from 'vitest';
import { skipsSince } from '../../src/report/state/skips-since.ts';
import { ridesAnalysed } from '../../src/report/words/rides-analysed.ts';
import { skippedWords } from '../../web/words/skipped-words.ts';

type Ride = Parameters<typeof ridesAnalysed>[0]['rides'][number];
const ride = (change: Partial<Ride> = {}): Ride => ({ leftOut: null, notTallied: null, ...change }) as Ride;

it('says how many of the rides tell nothing of this bike', () => {
  const foreign = ride({ leftOut: 'another-bike' });
  expect(ridesAnalysed({ rides: [ride(), ride()] })).toBe('2 rides analysed');
  expect(ridesAnalysed({ rides: [ride(), ride(), foreign] })).toBe(
    "3 rides analysed, 1 of them left out as another bike's",
  );
  expect(ridesAnalysed({ rides: [ride({ notTallied: 'rings-unclear' })] })).toBe('1 ride analysed, it is not weighed');
});

it('counts skips from the moment on from which shifts count', () => {
  const startMs = Date.parse('2026-05-01T08:00:00Z');
  const rides = [{ startMs, events: { skips: [{ timeS: 10 }, { timeS: 100 }] } }] as never;
  const report = {
    rides: [
      { leftOut: null, counts: { skips: 2 } },
      { leftOut: 'another-bike', counts: { skips: 5 } },
    ],
  };
  expect(skipsSince(report as never, rides, null)).toBe(2);
  expect(skipsSince(report as never, rides, new Date(startMs + 50_000).toISOString())).toBe(1);
});

it('tells them beside the rate of trouble where wear is likeliest', () => {
  expect(skippedWords({ topCause: 'worn-drivetrain', skips: 23 })).toBe('skipped 23 times');
  expect(skippedWords({ topCause: 'no-fault', skips: 1 })).toBeNull();
});

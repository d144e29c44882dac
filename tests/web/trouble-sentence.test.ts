import { expect, it } from 'vitest';
import { troubleSentence } from '../../web/bike/trouble-sentence.ts';
import { sampleReport } from '../report/sample-report.ts';

it('tells the trouble over the rides that had judged shifts, not over all', () => {
  const report = sampleReport();
  const [ride] = report.rides;
  const silent = { ...ride, counts: { ...ride.counts, unjudged: ride.counts.shifts } };
  const judgedShifts = 60;
  const said = (rides: (typeof ride)[], changes = {}): string | null =>
    troubleSentence({
      report: { ...report, rides },
      state: { judgedShifts, sinceAdjustment: false, troubleRate: 0.25, low: 0.1, high: 0.4, ...changes },
    } as never);
  expect(said([ride, silent, silent])).toContain(' over 1 ride, 25 % came late');
  expect(said([ride, ride])).toContain('Of 60 judged shifts over 2 rides, ');
  expect(said([ride, ride], { sinceAdjustment: true })).toContain('Of 60 judged shifts since the last adjustment, ');
  const foreign = { ...ride, leftOut: 'another-bike' as const };
  expect(said([ride, foreign])).toContain(' over 1 ride, ');
  expect(said([silent], { troubleRate: null })).toBeNull();
});

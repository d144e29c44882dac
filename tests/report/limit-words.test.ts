import { expect, it } from 'vitest';
import { limitWords } from '../../src/report/words/limit-words.ts';
import { sampleReport } from './sample-report.ts';

const slowWords = (...lagsS: (number | null)[]): string[] => {
  const report = sampleReport();
  const rides = lagsS.map((sensorLagS) => ({ ...report.rides[0], sensorLagS }));
  return limitWords({ ...report, rides }).filter((words) => words.startsWith('If every shift is equally slow'));
};

it('says that a bike whose every shift is slow may be hidden, where the sensors follow late', () => {
  expect(slowWords(1.2, 2.46, 2.3)).toEqual([
    'If every shift is equally slow, that looks like late sensors (here they follow the gear records by up to 2.5 s). If shifting feels slow everywhere, measure the gap between guide pulley and cogs.',
  ]);
  expect(slowWords(1.2, 2.3)).toEqual([]);
  expect(slowWords(null)).toEqual([]);
});

it('says of any log that a lost chain may leave no mark in it, as it says of skips, and how to tell of one', () => {
  const words = limitWords({ ...sampleReport(), rides: [] });
  expect(words).toContainEqual(expect.stringMatching(/^Most skips leave no mark .* go by that/));
  expect(words).toContainEqual(
    expect.stringMatching(/^A chain that comes off .* no mark in a log: .* go by that.* say so/),
  );
});

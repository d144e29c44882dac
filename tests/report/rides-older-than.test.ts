import { expect, it } from 'vitest';
import { ridesOlderThan } from '../../src/report/words/rides-older-than.ts';
import { sampleReport } from './sample-report.ts';

it('counts the rides that are older than an adjustment, and says nothing where none is', () => {
  const report = sampleReport();
  expect(ridesOlderThan(report, '2026-04-12T18:30:00Z')).toBe('1 of the 2 rides is from before the last adjustment.');
  expect(ridesOlderThan(report, '2026-04-20T18:30:00Z')).toBe('2 of the 2 rides are from before the last adjustment.');
  expect(ridesOlderThan(report, '2026-04-01T18:30:00Z')).toBe('');
});

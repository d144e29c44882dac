import { expect, it } from 'vitest';
import { notRiddenSince } from '../../web/words/not-ridden-since.ts';

const worked = (lastRideAt: string | null, ...at: string[]) =>
  notRiddenSince({ lastRideAt, adjustmentMarks: at.map((one) => ({ at: one, parameter: 'chain' })) });

it('says when a bike was worked on that was not ridden since', () => {
  const ride = '2026-05-03T10:00:00.000Z';
  expect(worked(ride, '2026-05-05T10:00:00Z', '2026-05-09T10:00:00Z')).toBe('Worked on 9 May 2026, not ridden since.');
  expect(worked(ride, '2026-05-01T10:00:00Z')).toBeNull();
  expect(worked(ride)).toBeNull();
  expect(worked(null, '2026-05-05T10:00:00Z')).toBeNull();
});

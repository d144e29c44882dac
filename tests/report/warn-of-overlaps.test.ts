import { expect, it } from 'vitest';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { warnOfOverlaps } from '../../src/report/warn-of-overlaps.ts';

const ride = (file: string, start: string, durationS: number): RideReport =>
  ({ file, start, durationS, warnings: [] }) as unknown as RideReport;
const warned = (...rides: RideReport[]): [string, string][] =>
  warnOfOverlaps(rides).flatMap(({ file, warnings }) =>
    warnings.map(({ message }) => [file, message] as [string, string]),
  );

it('warns of the ride that began later and names the other, in any order', () => {
  const early = ride('early.fit', '2026-05-01T08:00:00Z', 3600);
  const late = ride('late.fit', '2026-05-01T08:50:00Z', 3600);
  const next = ride('next.fit', '2026-05-01T10:00:00Z', 3600);
  for (const rides of [
    [early, late, next],
    [next, late, early],
  ])
    expect(warned(...rides)).toEqual([['late.fit', expect.stringContaining('another was under way: early.fit.')]]);
});

it('warns once of a ride within several', () => {
  const rides = ['a', 'b', 'c', 'd', 'e'].map((file) => ride(file, '2026-05-01T08:00:00Z', 3600));
  expect(warned(...rides).map(([file]) => file)).toEqual(['b', 'c', 'd', 'e']);
  expect(warned(...rides).at(-1)?.[1]).toContain('under way: a, b, c and others.');
});

it('takes more than a minute for an overlap, of the time in common and of the ride itself', () => {
  const early = ride('a', '2026-05-01T08:00:00Z', 3661);
  expect(warned(early, ride('b', '2026-05-01T09:00:00Z', 3600))).toHaveLength(1);
  expect(warned(early, ride('short', '2026-05-01T08:30:00Z', 61))).toHaveLength(1);
  expect(warned(early, ride('short', '2026-05-01T08:30:00Z', 60))).toEqual([]);
});

it('is silent where rides touch, and where there is no clock', () => {
  expect(warned(ride('a', '2026-05-01T08:00:00Z', 3660), ride('b', '2026-05-01T09:00:00Z', 3600))).toEqual([]);
  expect(warned(ride('a', '1970-01-01T00:00:00Z', 3600), ride('b', '1970-01-01T00:00:00Z', 3600))).toEqual([]);
});

import { expect, it } from 'vitest';
import { cogsSince, skipsByCogSince } from '../../server/state/cogs-since.ts';
import type { RiddenFor } from '../../src/adjustments/part-of-ride.ts';
import { hutBike } from './made-rides.ts';

const START = Date.parse('2026-05-01T08:00:00Z');
const LARGEST = hutBike.cassette.length - 1;

/** A late shift onto the largest cog, a move there unasked and a chain lost past it, at so many seconds each. */
function rideAt(startMs: number, seconds: readonly number[]): RiddenFor {
  const shifts = seconds.map((timeS) => ({
    ...{ timeS, fromCog: LARGEST - 1, toCog: LARGEST, direction: 'to-larger', outcome: 'late' },
    ...{ crankRevs: 3, confidence: 1, torqueNm: 20 },
  }));
  const chainDrops = seconds.map((timeS) => ({ timeS, side: 'past-largest' }));
  const ghostShifts = seconds.map((timeS) => ({ timeS, fromCog: LARGEST - 1, toCog: LARGEST, heldS: 5 }));
  const events = { shifts, ghostShifts, chainDrops, skips: [], pedallingSByCog: new Float64Array() };
  return { startMs, durationS: 3600, events } as unknown as RiddenFor;
}

const onLargest = (rides: RiddenFor[], sinceAt: string | null) =>
  cogsSince(rides, sinceAt, hutBike)
    ?.filter(({ teeth, direction }) => teeth === hutBike.cassette[LARGEST] && direction === 'to-larger')
    .map(({ shifts, late, ghostShifts, chainDrops }) => [shifts, late, ghostShifts, chainDrops]);

it('counts shifts, unasked moves and lost chains from the moment on, within a ride too, and leaves out rides without a date', () => {
  const rides = [rideAt(START - 86_400_000, [10, 20]), rideAt(START, [100, 200, 300]), rideAt(0, [50])];
  expect(onLargest(rides, '2026-05-01T08:02:30Z')).toEqual([[2, 2, 2, 2]]);
  expect(onLargest(rides, '2026-04-01T00:00:00Z')).toEqual([[5, 5, 5, 5]]);
});

it('counts what happened at the very moment', () => {
  expect(onLargest([rideAt(START, [100, 200])], '2026-05-01T08:03:20Z')).toEqual([[1, 1, 1, 1]]);
  expect(onLargest([rideAt(START, [100, 200])], '2026-05-01T08:03:21Z')).toEqual([[0, 0, 0, 0]]);
});

it('is none where all rides count', () => {
  expect(cogsSince([rideAt(START, [100])], null, hutBike)).toBeNull();
});

it('counts skips on their cog from the moment on, with the part of the pedalling that was after it', () => {
  const ride = rideAt(START, []);
  const pedallingSByCog = new Float64Array(hutBike.cassette.length).fill(1800);
  const skips = [600, 2700, 3000].map((timeS) => ({ timeS, cog: 4, confidence: 1, torqueNm: 30 }));
  const report = { counts: { skips: 3 }, evidence: 'full', warnings: [] };
  const whole = { ...ride, events: { ...ride.events, skips, pedallingSByCog }, report } as never;
  const since = (at: string) => skipsByCogSince([whole], at, hutBike)?.[4];
  expect(since('2026-05-01T08:30:00Z')).toMatchObject({ teeth: hutBike.cassette[4], skips: 2, pedallingS: 900 });
  expect(since('2026-05-01T07:00:00Z')).toMatchObject({ skips: 3, pedallingS: 1800, perHour: 6 });
  expect(since('2026-05-01T09:00:00Z')).toMatchObject({ skips: 0, pedallingS: 0, perHour: null });
  expect(skipsByCogSince([whole], null, hutBike)).toBeNull();
});

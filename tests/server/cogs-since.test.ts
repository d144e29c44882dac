import { expect, it } from 'vitest';
import { cogsSince } from '../../server/state/cogs-since.ts';
import type { PlacedRide } from '../../src/adjustments/adjustment-periods.ts';
import { hutBike } from './made-rides.ts';

const START = Date.parse('2026-05-01T08:00:00Z');
const LARGEST = hutBike.cassette.length - 1;

/** A late shift onto the largest cog, a move there unasked and a chain lost past it, at so many seconds each. */
function rideAt(startMs: number, seconds: readonly number[]): PlacedRide {
  const shifts = seconds.map((timeS) => ({
    ...{ timeS, fromCog: LARGEST - 1, toCog: LARGEST, direction: 'to-larger', outcome: 'late' },
    ...{ crankRevs: 3, confidence: 1, torqueNm: 20 },
  }));
  const chainDrops = seconds.map((timeS) => ({ timeS, side: 'past-largest' }));
  const ghostShifts = seconds.map((timeS) => ({ timeS, fromCog: LARGEST - 1, toCog: LARGEST, heldS: 5 }));
  const events = { shifts, ghostShifts, chainDrops, skips: [], pedallingSByCog: new Float64Array() };
  return { startMs, events } as unknown as PlacedRide;
}

const onLargest = (rides: PlacedRide[], sinceAt: string | null) =>
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

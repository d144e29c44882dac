import { expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { judgeRide } from '../../src/shifts/judge-ride.ts';
import { softAfterShift } from '../../src/shifts/stories/soft-after-shift.ts';
import { MadeRide, madeBike } from '../gear-trace/made-ride.ts';
import { at } from './warmed-up.ts';

const TIMES = 30;
/** Legs that turn this much slower than the chain would drive show about the ratio of the next smaller cog. */
const TRAILING = 0.87;

/** A ride on a bike in order, to a larger cog and back again and again; legs trail in the second after the shifts of the directions named. */
function ridden(...soft: ('larger' | 'smaller')[]): { log: RideLog; shiftedS: number[] } {
  const ride = at(4, new MadeRide(madeBike, 0.02).pedal(30).wander(20).pedal(15)).pedal(40);
  const trailing: number[] = [];
  const shiftedS: number[] = [];
  for (let i = 0; i < TIMES; i++)
    for (const [cog, direction] of [
      [5, 'larger'],
      [4, 'smaller'],
    ] as const) {
      shiftedS.push(ride.nowS);
      if (soft.includes(direction)) trailing.push(ride.nowS + 1);
      ride.shift(cog).pedal(12);
    }
  const log = ride.log();
  return {
    log: { ...log, cadenceRpm: log.cadenceRpm.map((rpm, i) => (trailing.includes(i) ? TRAILING * rpm : rpm)) },
    shiftedS,
  };
}
const shareOf = (log: RideLog): number => softAfterShift(log, traceGears(log, madeBike)).share;
const lateOf = (log: RideLog): number =>
  judgeRide(log, traceGears(log, madeBike), madeBike.cassette.length).events.shifts.filter(
    ({ outcome }) => outcome === 'late' || outcome === 'missed',
  ).length;

it('tells riders who pedal softly while shifting by their shifts to smaller cogs', () => {
  expect(shareOf(ridden().log)).toBeLessThan(0.1);
  expect(shareOf(ridden('larger', 'smaller').log)).toBeGreaterThan(0.25);
  // what only shifts to larger cogs show may be the chain, still on the cog before
  expect(shareOf(ridden('larger').log)).toBeLessThan(0.1);
});

it('calls no shift late for legs that trail the wheel after shifts of both directions', () => {
  expect(lateOf(ridden().log)).toBe(0);
  expect(lateOf(ridden('larger', 'smaller').log)).toBeLessThan(TIMES / 10);
  expect(lateOf(ridden('larger').log)).toBeGreaterThan(TIMES / 2);
});

it('covers the seconds after each shift and no others, and nothing of a ride without gears', () => {
  const { log, shiftedS } = ridden();
  const { records } = softAfterShift(log, traceGears(log, madeBike));
  const near = (timeS: number): boolean => shiftedS.some((shifted) => timeS > shifted && timeS - shifted <= 3.3);
  // the shifts of the warming up lie before
  const from = shiftedS[0] - 3;
  expect([...records].slice(from).map(Boolean)).toEqual([...log.timeS].slice(from).map(near));
  const bare = { ...log, cadenceRpm: log.cadenceRpm.map(() => Number.NaN) };
  expect(softAfterShift(bare, traceGears(bare, madeBike)).share).toBe(0);
});

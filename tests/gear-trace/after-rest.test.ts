import { describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { restsOf } from '../../src/gear-trace/samples/since-rest.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { withoutRecords } from '../accuracy/without-records.ts';
import { MadeRide, madeBike } from './made-ride.ts';

describe('restsOf', () => {
  /** Rests of a cadence of 80 rpm at these times: 1 the legs turn, 0 they stand, NaN nobody knows. */
  const rests = (turning: number[], timeS = turning.map((_, i) => i)) =>
    restsOf(Float64Array.from(timeS), {
      pedalling: Uint8Array.from(turning, (one) => (one === 1 ? 1 : 0)),
      cadenceRpm: Float64Array.from(turning, (one) => 80 * one),
    });
  const none = Number.POSITIVE_INFINITY;

  it('counts six seconds from the first of pedalling', () => {
    const { sinceS, beganS } = rests([1, 0, 0, 1, 1, 1, 1, 1, 1, 1]);
    expect([...sinceS]).toEqual([none, none, none, 0, 1, 2, 3, 4, 5, none]);
    expect(beganS[3]).toBe(1);
    expect(beganS.filter((began) => !Number.isNaN(began)).length).toBe(1);
  });
  it('takes a single second for no rest, and does not count on over it', () => {
    expect([...rests([1, 0, 1, 1]).sinceS]).toEqual([none, none, none, none]);
    expect([...rests([0, 0, 1, 0, 1, 1]).sinceS]).toEqual([none, none, 0, none, none, none]);
  });
  it('counts the time up to the first of pedalling, however far the records lie apart', () => {
    expect([...rests([1, 0, 1, 1], [0, 1, 61, 62]).sinceS]).toEqual([none, none, 0, 1]);
  });
  it('is told nothing by a cadence that drops out', () => {
    const lost = Number.NaN;
    expect([...rests([1, lost, lost, lost, 1, 1]).sinceS]).toEqual(Array(6).fill(none));
    expect([...rests([1, 0, 0, lost, 1]).sinceS]).toEqual(Array(5).fill(none));
    expect([...rests([0, 0, 1, lost, 1, 1]).sinceS]).toEqual([none, none, 0, none, none, none]);
  });
});

/** Shifts, changes of pace, and after each two rests with nothing commanded about them; the time of each start of the legs. */
function rideWithRests(): { readonly log: RideLog; readonly startsS: number[] } {
  const ride = new MadeRide(madeBike, 0.004, 2);
  const startsS: number[] = [];
  for (let n = 0; n < 20; n++) {
    ride.wander(1).pedal(9, { cadenceRpm: 100 }).pedal(9, { cadenceRpm: 65 }).pedal(9);
    for (let rest = 0; rest < 2; rest++) {
      ride.coast(6);
      startsS.push(ride.nowS);
      ride.pedal(16);
    }
  }
  return { log: ride.log(), startsS };
}

describe('what the sensors show after a rest of the legs', () => {
  const { log, startsS } = rideWithRests();
  /** The cadence of a sensor that shows the legs 8 % slow in the first second, 4 % in the second. */
  const slowlyRising = log.cadenceRpm.map((rpm, t) =>
    startsS.includes(t) ? rpm * 0.92 : startsS.includes(t - 1) ? rpm * 0.96 : rpm,
  );
  const averaging = { ...log, cadenceRpm: slowlyRising };

  it('is measured from the ride: by how much, drawn towards none as if by twelve rests that show none', () => {
    const shifts = traceGears(averaging, madeBike).model?.noise.afterRest?.map(({ shift }) => shift) ?? [];
    const told = startsS.length / (startsS.length + 12);
    expect(shifts[0]).toBeCloseTo(-told * Math.log(0.92), 2);
    expect(shifts[1]).toBeCloseTo(-told * Math.log(0.96), 2);
    for (const shift of shifts.slice(2)) expect(Math.abs(shift)).toBeLessThan(0.005);
  });

  it('is taken off the development, and what is not sure of it widens its spread', () => {
    const { logDevelopment, deviation } = traceGears(averaging, madeBike);
    const { logDevelopment: plain } = traceGears(log, madeBike);
    const off = startsS.map((t) => Math.abs(logDevelopment[t] - plain[t]));
    for (const one of off) expect(one).toBeLessThan(0.03);
    for (const t of startsS) expect(deviation[t]).toBeGreaterThan(1.5 * deviation[t + 10]);
  });

  it('is nothing in a ride whose sensor shows the start at once', () => {
    for (const { shift } of traceGears(log, madeBike).model?.noise.afterRest ?? [])
      expect(Math.abs(shift)).toBeLessThan(0.004);
  });

  it('is not told where no gear records say that the chain was to lie still', () => {
    expect(traceGears(withoutRecords(averaging), madeBike).model?.noise.afterRest).toBeUndefined();
  });
});

it('late shifts asked for while the legs rest are not taken for what the sensor shows', () => {
  const ride = new MadeRide(madeBike, 0.004, 4);
  for (let n = 0; n < 30; n++) {
    ride.wander(2).pedal(9, { cadenceRpm: 100 }).pedal(9, { cadenceRpm: 65 });
    const to = ride.cog + (ride.cog >= 6 ? -1 : 1);
    // asked for well before the legs turn, and done three seconds after
    ride.coast(1).command(to).coast(5).pedal(3).move(to).pedal(14);
    ride.coast(6).pedal(16);
  }
  const { trace, events } = analyseRide(ride.log(), madeBike);
  for (const { shift } of trace.model?.noise.afterRest ?? []) expect(Math.abs(shift)).toBeLessThan(0.006);
  expect(events.shifts.filter(({ outcome }) => outcome === 'late').length).toBeGreaterThan(10);
});

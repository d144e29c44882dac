import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cadenceWithoutHeld } from '../../src/gear-trace/samples/held-cadence.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { haveRealRides, realRide } from '../ride-log/real-rides.ts';
import { madeLog } from './made-ride.ts';

/** Cadence that never says the same twice in a row. */
const lively = (count: number): number[] => Array.from({ length: count }, (_, i) => 80 + (i % 3) + (i % 2));
const column = (cadenceRpm: readonly number[], powerW?: readonly number[]): number[] => [
  ...cadenceWithoutHeld(madeLog({ speedMps: cadenceRpm.map(() => 6), cadenceRpm, ...(powerW ? { powerW } : {}) })),
];
const stops = (held: number, count: number): number[] =>
  Array.from({ length: count }, () => [...lively(20), ...Array<number>(held).fill(91), 0, 0, 0]).flat();

describe('cadence that a sensor holds after the legs have stopped', () => {
  it('is taken out before every stop where the sensor does so as a rule', () => {
    const turned = column(stops(3, 6));
    expect(turned.slice(19, 25)).toEqual([lively(20)[19], 91, 0, 0, 0, 0]);
    expect(turned.filter((rpm) => rpm === 91)).toHaveLength(6);
  });

  it('stays where stops are too few to know the sensor, and where steady legs repeat readings as often', () => {
    expect(column(stops(3, 3))).toEqual(stops(3, 3));
    const steady = [...Array<number>(40).fill(90), ...Array<number>(40).fill(92), 0, 0];
    const rides = Array.from({ length: 6 }, () => steady).flat();
    expect(column(rides)).toEqual(rides);
  });

  it('takes as many readings before a stop as is usual, no more', () => {
    const cadenceRpm = [...stops(3, 6), ...lively(10), 85, 85, 85, 85, 85, 85, 85, 0];
    expect(column(cadenceRpm).slice(-8)).toEqual([85, 85, 85, 85, 85, 0, 0, 0]);
  });

  it('goes by zero power where the rider pedals on before the reading falls to 0', () => {
    const cadenceRpm = [...stops(3, 6), ...lively(10), 85, 85, 60, 80];
    const powerW = [...cadenceRpm.map(() => 150)];
    powerW[cadenceRpm.length - 3] = 0;
    expect(column(cadenceRpm, powerW).slice(-4)).toEqual([85, 0, 60, 80]);
  });

  it('never turns the legs faster, and leaves every first reading', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 1, maxLength: 400 }), (levels) => {
        const cadenceRpm = levels.map((level) => 30 * level);
        column(cadenceRpm).forEach((rpm, i) => {
          expect(rpm === cadenceRpm[i] || (rpm === 0 && cadenceRpm[i - 1] === cadenceRpm[i])).toBe(true);
        });
      }),
    );
  });

  it.skipIf(!haveRealRides)('is found in the sensors of real rides that hold it, and in no other', () => {
    const taken = (name: string): { readonly stops: number; readonly atStops: number } => {
      const log = readRideLog(name, realRide(name));
      const turned = cadenceWithoutHeld(log);
      let atStops = 0;
      let all = 0;
      for (let i = 3; i < turned.length; i++) {
        if (log.cadenceRpm[i] !== 0 || !(log.cadenceRpm[i - 1] > 30)) continue;
        all++;
        if (turned[i - 1] === 0 && turned[i - 2] === 0 && turned[i - 3] > 0) atStops++;
      }
      return { stops: all, atStops };
    };
    for (const name of ['gears-cadence-wheel-sensor.fit', 'plain-b.fit', 'plain-power-a.fit']) {
      const { stops: all, atStops } = taken(name);
      expect(all, name).toBeGreaterThan(30);
      expect(atStops / all, name).toBeGreaterThan(0.75);
    }
    expect(taken('gears-cadence-power-20h.fit').atStops).toBe(0);
  });
});

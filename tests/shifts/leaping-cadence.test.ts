import { describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { leapingCadence } from '../../src/shifts/drops/leaping-cadence.ts';
import { at } from './warmed-up.ts';

/** So many spells of legs that whirl, each between long pedalling on one gear, on a ride that ends in a halt. */
const whirling = (times: number) => {
  const ride = at(8);
  for (let n = 0; n < times; n++) ride.pedal(80).spinInVain(4, 116).pedal(80);
  return ride.coast(5).brake(4, 0).stand(40).pedal(30);
};

describe('leapingCadence', () => {
  const cadence = (rpm: (second: number) => number) => ({
    timeS: Float64Array.from({ length: 1800 }, (_, i) => i),
    cadenceRpm: Float64Array.from({ length: 1800 }, (_, i) => rpm(i)),
  });
  const pedalled = (second: number): number => 80 + 8 * Math.sin(second / 20);

  it('is told by how often the cadence goes far beyond the rider’s fastest', () => {
    expect(leapingCadence(cadence(pedalled))).toBe(false);
    expect(leapingCadence(cadence((s) => (s % 120 === 0 ? 130 : pedalled(s))))).toBe(true);
    expect(leapingCadence(cadence((s) => (s % 600 === 0 ? 130 : pedalled(s))))).toBe(false);
    expect(leapingCadence(cadence(() => Number.NaN))).toBe(false);
  });

  it('keeps whirling legs that drive on before the next halt from being lost chains', () => {
    const found = (times: number): number => {
      const ride = whirling(times);
      return analyseRide(ride.log(), ride.bike).events.chainDrops.length;
    };
    expect(found(1)).toBe(1);
    expect(found(8)).toBe(0);
  });
});

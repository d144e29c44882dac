import { describe, expect, it } from 'vitest';
import { CrankSensor } from '../../../src/simulate/sensors/crank-sensor.ts';
import { WheelSensor } from '../../../src/simulate/sensors/wheel-sensor.ts';

const everyS = (period: number, untilS: number): number[] =>
  Array.from({ length: Math.floor(untilS / period) }, (_, i) => (i + 1) * period);

describe('CrankSensor', () => {
  it('reads a steady cadence exactly', () => {
    const sensor = new CrankSensor(everyS(0.75, 60), 3, 1.6);
    for (let t = 10; t < 55; t++) expect(sensor.readRpm(t)).toBeCloseTo(80, 9);
  });

  it('after the last turn sinks for some seconds, then reads 0: the ratio seems to run away', () => {
    const sensor = new CrankSensor(everyS(0.75, 30), 3, 1.6);
    const after = [30.5, 31, 31.5, 32, 32.5, 33.5].map((t) => sensor.readRpm(t));
    expect(after[0]).toBeCloseTo(80, 0);
    for (let i = 1; i < after.length; i++) expect(after[i]).toBeLessThanOrEqual(after[i - 1]);
    expect(after[3]).toBeGreaterThan(20);
    expect(after.at(-1)).toBe(0);
  });

  it('does not average over a rest', () => {
    const sensor = new CrankSensor([...everyS(0.75, 10), 60, 60.8, 61.6], 3, 1.6);
    expect(sensor.readRpm(62)).toBeCloseTo(75, 6);
  });
});

describe('WheelSensor', () => {
  it('reads a steady speed exactly, with the rollout set in the device', () => {
    const sensor = new WheelSensor(everyS(0.25, 60), 2.2, 1);
    for (let t = 10; t < 55; t++) expect(sensor.readMps(t)).toBeCloseTo(8.8, 9);
  });

  it('reads 0 at a halt', () => {
    const sensor = new WheelSensor(everyS(0.25, 20), 2.2, 1);
    expect(sensor.readMps(21)).toBeLessThan(8.8);
    expect(sensor.readMps(24)).toBe(0);
  });
});

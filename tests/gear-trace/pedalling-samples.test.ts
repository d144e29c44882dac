import { describe, expect, it } from 'vitest';
import { logDevelopmentColumn, pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { sensorFaults } from '../../src/gear-trace/samples/sensor-faults.ts';
import { writtenSpeed } from '../../src/gear-trace/samples/written-speed.ts';
import gears from '../checks/gear-arithmetic.json' with { type: 'json' };
import { madeLog } from './made-ride.ts';

const filled = (count: number, value: number): number[] => Array(count).fill(value);

describe('pedallingSamples', () => {
  it('takes a ratio only where speed and cadence are there and large enough', () => {
    const log = madeLog({
      speedMps: [5, 1, 5, 5, 5, Number.NaN, 5, 5.01],
      cadenceRpm: [80, 80, 30, 31, 181, 80, Number.NaN, 180],
    });
    const { usable, pedalling } = pedallingSamples(log);
    expect([...usable]).toEqual([1, 0, 0, 1, 0, 0, 0, 1]);
    expect([...pedalling]).toEqual([1, 1, 0, 1, 1, 1, 0, 1]);
  });

  it('tells the step from the record before, 1 s for the first', () => {
    const log = madeLog({ speedMps: [5, 5, 5], cadenceRpm: [80, 80, 80], timeS: [10, 11, 18] });
    expect([...pedallingSamples(log).dtS]).toEqual([1, 1, 7]);
  });

  it('finds the slope of a steady acceleration, over missing values and uneven records too', () => {
    const times = [0, 1, 2, 3, 4, 6, 9, 12, 15, 18];
    const speed = times.map((t) => (t === 3 ? Number.NaN : 3 + 0.5 * t));
    const log = madeLog({ speedMps: speed, cadenceRpm: filled(10, 80), timeS: times });
    for (const [i, slope] of pedallingSamples(log).accelerationMps2.entries())
      if (i > 0 && i < 9) expect(slope, `record ${i}`).toBeCloseTo(0.5, 9);
  });

  it('gives slope 0 where the neighbours are too far away', () => {
    const log = madeLog({ speedMps: [3, 5, 9], cadenceRpm: [80, 80, 80], timeS: [0, 30, 60] });
    expect([...pedallingSamples(log).accelerationMps2]).toEqual([0, 0, 0]);
  });
});

describe('logDevelopmentColumn', () => {
  it.each(gears.speed.rows)('reads $developmentM m a turn from the published speeds', ({ developmentM, kmh }) => {
    gears.speed.cadenceRpm.forEach((cadence, i) => {
      const log = madeLog({ speedMps: filled(9, kmh[i] / 3.6), cadenceRpm: filled(9, cadence) });
      const read = Math.exp(logDevelopmentColumn(log, pedallingSamples(log), 0)[4]);
      expect(Math.abs(read - developmentM)).toBeLessThan(gears.speed.toleranceM);
    });
  });

  it('is the log of metres a crank turn: 6 m/s at 90 rpm is 4 m', () => {
    const log = madeLog({ speedMps: filled(9, 6), cadenceRpm: filled(9, 90) });
    const column = logDevelopmentColumn(log, pedallingSamples(log), 0);
    for (const value of column) expect(Math.exp(value)).toBeCloseTo(4, 9);
  });

  it('undoes a first-order lag: speed + lag x slope', () => {
    // a speed that grows by 0.4 m/s each second, shown 1.5 s late, reads 0.6 m/s too little
    const log = madeLog({ speedMps: Array.from({ length: 7 }, (_, t) => 5 + 0.4 * t), cadenceRpm: filled(7, 80) });
    const column = logDevelopmentColumn(log, pedallingSamples(log), 1.5);
    for (let t = 1; t < 6; t++) expect(Math.exp(column[t])).toBeCloseTo(((5 + 0.4 * t + 0.6) * 60) / 80, 9);
  });

  it('sets a cadence that is shown late against the speed of that time, jerks and all', () => {
    // one gear of 4 m a turn; the bike brakes and starts again within seconds, and the cadence is shown 1.5 s late
    const trulyMps = (t: number): number => 6 + 1.2 * Math.abs(((t + 40) % 8) - 4);
    const times = Array.from({ length: 40 }, (_, t) => t);
    const rpm = times.map((t) => (trulyMps(t - 1.5) / 4) * 60);
    const log = madeLog({ speedMps: times.map(trulyMps), cadenceRpm: rpm });
    const column = logDevelopmentColumn(log, pedallingSamples(log), -1.5);
    // between two records the speed is taken as a straight line, which cuts the corners of the jerks
    for (let t = 2; t < 40; t++) expect(Math.abs(column[t] - Math.log(4))).toBeLessThan(0.09);
    const exact = column.filter((value) => Math.abs(value - Math.log(4)) < 1e-9).length;
    expect(exact).toBeGreaterThan(25);
  });

  it('is NaN where there is no ratio, and where undoing the lag would double or halve the speed', () => {
    const falling = madeLog({ speedMps: [9, 7, 5, 3, 1.5], cadenceRpm: filled(5, 80) });
    expect(logDevelopmentColumn(falling, pedallingSamples(falling), 3)[3]).toBeNaN();
    const still = madeLog({ speedMps: [0, 0, 0], cadenceRpm: [0, 0, 0] });
    expect(logDevelopmentColumn(still, pedallingSamples(still), 0).every(Number.isNaN)).toBe(true);
  });
});

describe('sensorFaults', () => {
  const moving = (count: number, from: number, step: number): number[] =>
    Array.from({ length: count }, (_, i) => from + step * i);

  it('trusts two sensors that both move, and two that both stand still', () => {
    const both = madeLog({ speedMps: moving(12, 5, 0.1), cadenceRpm: moving(12, 80, 1) });
    const neither = madeLog({ speedMps: filled(12, 5), cadenceRpm: filled(12, 80) });
    expect([...sensorFaults(both), ...sensorFaults(neither)].every((fault) => fault === 0)).toBe(true);
  });

  it('marks a speed that is held while the cadence changes, but for its first record', () => {
    const log = madeLog({
      speedMps: [4.9, 4.95, ...filled(8, 5), 5.4],
      cadenceRpm: [80, 80, ...moving(8, 80, 2), 90],
    });
    expect([...sensorFaults(log)]).toEqual([0, 0, 0, 1, 1, 1, 1, 1, 1, 1, 0]);
  });

  it('marks a cadence that is held while the speed changes', () => {
    const log = madeLog({ speedMps: moving(20, 8, -0.2), cadenceRpm: [...moving(4, 70, 1), ...filled(16, 74)] });
    const faults = [...sensorFaults(log)];
    expect(faults.slice(0, 5)).toEqual(filled(5, 0));
    expect(faults.slice(5)).toEqual(filled(15, 1));
  });

  it('marks a speed that had gone astray until it jumps back, but no further than to a stand', () => {
    const lostFor = (cadenceRpm: number): number => {
      const speedMps = [...filled(10, 6), ...filled(20, 0), 1.2, ...filled(10, 6)];
      const log = madeLog({ speedMps, cadenceRpm: speedMps.map((v) => (v > 0 ? 80 : cadenceRpm)) });
      return sensorFaults(log).slice(10, 31).filter(Boolean).length;
    };
    expect(lostFor(80)).toBe(21);
    expect(lostFor(0)).toBe(1);
  });

  describe('in a speed written in coarse steps', () => {
    /** A bike that gathers speed and slows down; its cadence leaps to and fro, as over shifts. From the 200th record on its sensor may be silent. */
    const ride = (stepMps: number, silentFor = 0) => {
      const mps = Array.from({ length: 600 }, (_, t) => 7 + 3 * Math.sin(t / 25) + 0.02 * (t % 3));
      const speedMps = mps.map(
        (_, t) => Math.round(mps[t >= 200 && t < 200 + silentFor ? 200 : t] / stepMps) * stepMps,
      );
      return madeLog({ speedMps, cadenceRpm: mps.map((_, t) => (t % 12 < 6 ? 80 : 88)) });
    };
    const marked = (stepMps: number, silentFor?: number): number =>
      sensorFaults(ride(stepMps, silentFor)).reduce((sum, fault) => sum + fault, 0);

    it('trusts what a moving bike shows for some records by itself', () => {
      expect([0.001, 0.1, 1 / 3.6].map((stepMps) => marked(stepMps))).toEqual([0, 0, 0]);
      const written = (stepMps: number) => writtenSpeed(ride(stepMps).timeS, ride(stepMps).speedMps);
      for (const stepMps of [0.001, 0.1, 1 / 3.6]) expect(written(stepMps).stepMps).toBeCloseTo(stepMps, 9);
      expect(written(0.001).repeatedFor).toBe(1);
    });

    it('trusts one that was repeated for long at a steady speed, for the next value follows it', () => {
      const { timeS, speedMps, cadenceRpm } = ride(0.1);
      const climb = speedMps.map((v, t) => (t >= 300 && t < 360 ? 2.1 : t >= 360 ? (t === 360 ? 2.2 : 4.2) : v));
      const log = { ...ride(0.1), timeS, speedMps: climb, cadenceRpm };
      const jumps = { ...log, speedMps: climb.map((v, t) => (t === 360 ? 2.4 : v)) };
      const held = (ridden: typeof log): number => sensorFaults(ridden).slice(300, 360).filter(Boolean).length;
      expect([held(log), held(jumps)]).toEqual([0, 59]);
    });

    it('marks one that is held for longer than that, and in fine steps one that is held for a few records', () => {
      expect([0.001, 0.1, 1 / 3.6].map((stepMps) => marked(stepMps, 60) >= 59)).toEqual([true, true, true]);
      expect([0.001, 0.1].map((stepMps) => marked(stepMps, 8))).toEqual([7, 0]);
      // and as long on either side of a pause
      const silent = ride(0.001, 16);
      const paused = { ...silent, timeS: silent.timeS.map((timeS) => (timeS < 208 ? timeS : timeS + 60)) };
      expect(sensorFaults(paused).filter(Boolean).length).toBe(2 * 7);
    });
  });

  it('takes the same reading before and after a pause for two, not for one that was held', () => {
    const paused = (pauseS: number): number[] => {
      const log = madeLog({
        speedMps: [4.9, 4.95, ...filled(6, 5), 5.4],
        cadenceRpm: [80, 80, 80, 80, 80, 90, 90, 90, 90],
        timeS: Array.from({ length: 9 }, (_, i) => (i < 5 ? i : i + pauseS)),
      });
      return [...sensorFaults(log)];
    };
    expect(paused(0)).toEqual([0, 0, 0, 1, 1, 1, 1, 1, 0]);
    expect(paused(60)).toEqual(filled(9, 0));
  });

  it('marks a speed that strayed until it jumped back faster than any rider gains speed', () => {
    const log = madeLog({ speedMps: [8, 8.1, 7, 6, 5, 4, 8, 8.1], cadenceRpm: moving(8, 80, 1) });
    expect([...sensorFaults(log)]).toEqual([0, 0, 1, 1, 1, 1, 0, 0]);
  });

  it('goes back over a minute and more of such a speed, but not past a pause, nor for a single reading that leaps', () => {
    const marked = (back: readonly number[], pauseS = 0): number => {
      const speedMps = [...moving(30, 6, 0.01), ...moving(80, 1.1, 0.002), ...back];
      const timeS = speedMps.map((_, i) => (i < 70 ? i : i + pauseS));
      const log = madeLog({ speedMps, cadenceRpm: speedMps.map((_, i) => 70 + (i % 5)), timeS });
      return sensorFaults(log).filter(Boolean).length;
    };
    expect(marked([5, 6, 6, 6])).toBe(80);
    expect(marked([5, 6, 6, 6], 60)).toBe(40);
    expect(marked([6, 1.3, 1.3, 1.3])).toBe(0);
  });

  it('is empty for an empty log', () => {
    expect(sensorFaults(madeLog({ speedMps: [], cadenceRpm: [] })).length).toBe(0);
  });
});

import { describe, expect, it } from 'vitest';
import { guessDrivetrain } from '../../src/gear-trace/guess/guess-drivetrain.ts';
import { ladderPeaks } from '../../src/gear-trace/ladder/ladder-peaks.ts';
import { sharpestHistogram } from '../../src/gear-trace/ladder/sharpest-histogram.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { withoutRecords } from '../accuracy/without-records.ts';
import { haveRealRides, realRide } from '../ride-log/real-rides.ts';
import { partOfRide } from './part-of-ride.ts';
import { withoutFront } from './without-front.ts';

const read = (name: string): RideLog => readRideLog(name, realRide(name));
const rungs = (log: RideLog): number[] =>
  ladderPeaks(sharpestHistogram(log, pedallingSamples(log)).histogram).map(({ logDevelopment }) =>
    Math.exp(logDevelopment),
  );

describe.skipIf(!haveRealRides)('real rides', () => {
  it('plain-power-a.fit shows its six gears', () => {
    const found = rungs(read('plain-power-a.fit'));
    for (const development of [4.23, 4.57, 5.02, 5.54, 6.19, 7.03]) {
      const nearest = found.reduce((a, b) => (Math.abs(b - development) < Math.abs(a - development) ? b : a));
      expect(Math.abs(nearest / development - 1), `${development} m: ${nearest}`).toBeLessThan(0.015);
    }
  });

  it('indoor-wheel-sensor-power.fit has the cleanest bands: far apart, and nearly every second in one of them', () => {
    const log = read('indoor-wheel-sensor-power.fit');
    const { histogram, contrast, whyNone } = sharpestHistogram(log, pedallingSamples(log));
    expect(whyNone).toBeNull();
    expect(contrast).toBeGreaterThan(0.5);
    const bands = ladderPeaks(histogram);
    expect(bands.length).toBeGreaterThanOrEqual(2);
    expect(bands.reduce((sum, { seconds }) => sum + seconds, 0) / histogram.totalS).toBeGreaterThan(0.85);
    const trace = traceGears(log, guessDrivetrain([log]).bike);
    expect(trace.evidence).toBe('ratio-only');
    expect(trace.model?.noise.relative).toBeLessThan(0.012);
  });

  it.each([
    ['virtual-simulated-speed.fit', 'no-gear-bands'],
    ['indoor-no-speed.fit', 'no-speed'],
    ['chained-sparse.fit', 'no-cadence'],
  ])('%s gives no trace: %s', (name, code) => {
    const log = read(name);
    const trace = traceGears(log, guessDrivetrain([log]).bike);
    expect(trace.evidence).toBe('none');
    expect(trace.warnings.map((warning) => warning.code)).toEqual([code]);
    expect(trace.cog.every((cog) => cog === -1)).toBe(true);
  });

  it('gears-cadence-wheel-sensor.fit shows its two rings where the records leave them out', () => {
    const log = read('gears-cadence-wheel-sensor.fit');
    const named = guessDrivetrain([log]).bike;
    const { bike, certainty } = guessDrivetrain([withoutFront(log)]);
    expect(named.chainrings).toEqual([36, 52]);
    expect(bike.chainrings[1] / bike.chainrings[0]).toBeCloseTo(52 / 36, 2);
    expect(bike.cassette).toEqual(named.cassette);
    expect(certainty).toBeGreaterThan(0.8);
  });

  it.each(['gears-no-cadence-a.fit', 'gears-no-cadence-b.fit', 'gears-no-cadence-c.fit'])(
    '%s holds commands only',
    (name) => {
      const log = read(name);
      expect(traceGears(log, guessDrivetrain([log]).bike).evidence).toBe('commands-only');
    },
  );

  it('plain-smart-recording.fit, unevenly recorded, shows gears', () => {
    const log = read('plain-smart-recording.fit');
    const trace = traceGears(log, guessDrivetrain([log]).bike);
    expect(trace.evidence).toBe('ratio-only');
    const known = trace.cog.filter((cog, i) => cog >= 0 && trace.samples.usable[i]).length;
    expect(known / trace.samples.usable.filter((usable) => usable).length).toBeGreaterThan(0.9);
  });

  it('gears-cadence-power-20h.fit has rings 48/32, though 50/34 were recorded', () => {
    // ten of its hours; the first ones alone leave 51/34 open, the same proportion with a smaller wheel
    const log = partOfRide(read('gears-cadence-power-20h.fit'), 18_000, 54_000);
    const { bike, notes } = guessDrivetrain([log]);
    expect(bike.chainrings).toEqual([32, 48]);
    expect(notes[0].message).toMatch(/50/);
  });

  it('gears-cadence-wheel-sensor.fit: recorded teeth are right, and the trace does without its records', () => {
    const log = read('gears-cadence-wheel-sensor.fit');
    const { bike } = guessDrivetrain([log]);
    expect(bike.chainrings).toEqual([36, 52]);
    expect(bike.cassette).toEqual([11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28]);
    const seeing = traceGears(log, bike);
    const blind = traceGears(withoutRecords(log), bike);
    let right = 0;
    let of = 0;
    for (let i = 4; i < log.timeS.length; i++) {
      const settled = [1, 2, 3, 4].every((k) => seeing.cog[i - k] === seeing.cog[i]) && seeing.driving[i] > 0.5;
      if (!settled || seeing.cog[i] < 0 || !seeing.samples.usable[i]) continue;
      of++;
      if (blind.cog[i] === seeing.cog[i]) right++;
    }
    expect(right / of).toBeGreaterThan(0.97);
  });
});

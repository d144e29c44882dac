import { describe, expect, it } from 'vitest';
import { parseAdjustments } from '../../../src/adjustments/parse-adjustments.ts';
import { parseBike } from '../../../src/drivetrain/parse-bike.ts';
import { readRideLog } from '../../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../../src/ride-log/ride-log.ts';
import { simulateRides } from '../../../src/simulate/simulate-rides.ts';
import { simulationFiles } from '../../../src/simulate/simulation-files.ts';
import { truthSchema } from '../../../src/simulate/truth/truth-schema.ts';

const options = {
  cause: 'hanger-bent',
  seed: 9,
  durationS: 1200,
  formats: ['fit', 'csv', 'tcx'],
  autoPause: false,
  bike: {
    name: 'Two rings',
    chainrings: [34, 50],
    cassette: [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32],
    rolloutMm: 2136,
    actuation: 'cable',
  },
} as const;
const [ride] = simulateRides(options as unknown as Parameters<typeof simulateRides>[0]);

function expectSameColumns(read: RideLog, written: RideLog): void {
  expect(read.timeS).toHaveLength(written.timeS.length);
  for (let i = 0; i < written.timeS.length; i++) {
    expect(read.startMs + 1000 * read.timeS[i]).toBe(written.startMs + 1000 * written.timeS[i]);
    for (const [column, digits] of [
      ['speedMps', 3],
      ['cadenceRpm', 6],
      ['powerW', 6],
    ] as const)
      if (Number.isNaN(written[column][i])) expect(read[column][i]).toBeNaN();
      else expect(read[column][i]).toBeCloseTo(written[column][i], digits);
  }
}

describe('a simulated ride, written and read again', () => {
  for (const format of ['fit', 'csv', 'tcx'] as const)
    it(`is the same log from ${format}`, () => {
      const read = readRideLog(`ride.${format}`, ride.bytes[format] as Uint8Array);
      expectSameColumns(read, ride.log);
      expect(read.format).toBe(format);
    });

  it('tells in FIT where its speed comes from', () => {
    for (const speedSource of ['wheel', 'satellite'] as const) {
      const [made] = simulateRides({ cause: 'no-fault', seed: 1, durationS: 900, speedSource });
      expect(readRideLog('ride.fit', made.bytes.fit as Uint8Array).speedSource).toBe(speedSource);
    }
  });

  it('keeps every gear record in FIT, and in CSV the last of each second', () => {
    const fit = readRideLog('ride.fit', ride.bytes.fit as Uint8Array).gearRecords;
    const written = ride.log.gearRecords;
    expect(Array.from(fit.timeS)).toEqual(expect.arrayContaining(Array.from(written.timeS)));
    const lastOfSecond = (records: typeof written): Map<number, string> =>
      new Map(Array.from(records.timeS, (t, i) => [t, `${records.frontTeeth[i]}/${records.rearTeeth[i]}`]));
    expect(lastOfSecond(fit)).toEqual(lastOfSecond(written));
    const csv = readRideLog('ride.csv', ride.bytes.csv as Uint8Array).gearRecords;
    for (const [t, gear] of lastOfSecond(csv)) expect(lastOfSecond(written).get(t)).toBe(gear);
  });
});

describe('simulationFiles', () => {
  const files = simulationFiles({
    ...(options as unknown as Parameters<typeof simulationFiles>[0]),
    rides: 2,
    formats: ['fit'],
    work: [{ afterRide: 1, parameter: 'cable-tension', amount: -2, note: 'quick, "beside" the road' }],
  });
  const text = (path: string): string => new TextDecoder().decode(files.find((file) => file.path === path)?.bytes);

  it('gives rides with their truth, the bike and the adjustments', () => {
    expect(files.map((file) => file.path)).toEqual([
      'ride-1.fit',
      'ride-1.truth.json',
      'ride-2.fit',
      'ride-2.truth.json',
      'bike.json',
      'adjustments.csv',
    ]);
    expect(() => truthSchema.parse(JSON.parse(text('ride-2.truth.json')))).not.toThrow();
    expect(parseBike('bike.json', text('bike.json')).cassette).toEqual(options.bike.cassette);
  });

  it('writes adjustments that the reader of adjustments understands, between the rides they lie between', () => {
    const [row] = parseAdjustments('adjustments.csv', text('adjustments.csv'));
    expect(row).toMatchObject({
      parameter: 'cable-tension',
      amount: -2,
      unit: 'clicks',
      note: 'quick, "beside" the road',
    });
    const starts = ['ride-1', 'ride-2'].map((name) => JSON.parse(text(`${name}.truth.json`)).start);
    expect(Date.parse(row.at)).toBeGreaterThan(Date.parse(starts[0]) + options.durationS * 1000);
    expect(Date.parse(row.at)).toBeLessThan(Date.parse(starts[1]));
  });
});

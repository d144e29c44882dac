import { describe, expect, test } from 'vitest';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { speedFromDistance } from '../../src/ride-log/speed-from-distance.ts';
import { FitEncoder } from './fit-encoder.ts';
import { fitRide, plainRecords, type RawRecord, START } from './fit-ride.ts';

const codes = (ride: RideLog): string[] => ride.warnings.map(({ code }) => code);
const ofRecords = (records: RawRecord[]): RideLog => readRideLog('ride', fitRide(records));
const refusal = (bytes: Uint8Array, name = 'ride'): { code: string; message: string } => {
  try {
    readRideLog(name, bytes);
  } catch (error) {
    return error as { code: string; message: string };
  }
  return { code: 'a ride', message: '' };
};
const GEAR = 8 + 14 * 256;

describe('impossible values are set aside, never averaged in', () => {
  test('cadence, speed, power', () => {
    const records = plainRecords(20);
    records[3] = { ...records[3], cadence: 254 };
    records[4] = { ...records[4], speed: 55_556 };
    records[5] = { ...records[5], power: 9000 };
    const ride = ofRecords(records);
    expect(codes(ride).sort()).toEqual(['impossible-cadence', 'impossible-power', 'impossible-speed']);
    expect([ride.cadenceRpm[3], ride.speedMps[4], ride.powerW[5]]).toEqual([NaN, NaN, NaN]);
    expect([ride.cadenceRpm[4], ride.speedMps[5], ride.powerW[6]]).toEqual([90, 8, 200]);
    expect(ride.warnings[0].message).toBe('1 cadence value outside 0 to 230 rpm: set aside.');
  });

  test('a clock that jumps a year, for one record or at the end', () => {
    const records = plainRecords(50);
    records[20] = { ...records[20], time: START + 366 * 86_400 };
    const ride = ofRecords(records);
    expect(codes(ride)).toEqual(['clock-jump']);
    expect(ride.timeS.length).toBe(49);
    expect(ride.timeS.at(-1)).toBe(49);
  });

  test('several records a second are read one a second', () => {
    const rows = Array.from({ length: 400 }, (_, i) => `${i / 4},${5 + i / 1000},${80 + (i % 4)}`);
    const bytes = new TextEncoder().encode(`time_s,speed_mps,cadence_rpm\n${rows.join('\n')}\n`);
    const ride = readRideLog('fast.csv', bytes);
    expect(codes(ride)).toContain('several-a-second');
    expect(ride.timeS.length).toBe(100);
    expect([ride.startMs, ride.timeS[0]]).toEqual([0, 0]);
    expect(ride.timeS[99] - ride.timeS[98]).toBe(1);
    expect([ride.speedMps[1], ride.cadenceRpm[1]]).toEqual([5.007, 83]);
  });

  test('a clock that was never set', () => {
    expect(codes(ofRecords(plainRecords(20, 1000)))).toEqual(['clock-not-set']);
  });

  test('distance that runs backwards', () => {
    const records = plainRecords(20);
    records[7] = { ...records[7], distance: 5 };
    const ride = ofRecords(records);
    expect(codes(ride)).toEqual(['impossible-distance']);
    expect(ride.distanceM[7]).toBeNaN();
    expect(ride.distanceM[8]).toBe(64);
  });

  test('teeth no cog has', () => {
    const word = 8 + 99 * 256 + 65536 + 200 * 2 ** 24;
    const ride = readRideLog('ride', fitRide(plainRecords(20), [{ time: START + 5, word }]));
    expect(codes(ride)).toEqual(['impossible-teeth']);
    expect([ride.gearRecords.rearTeeth[0], ride.gearRecords.frontTeeth[0]]).toEqual([0, 0]);
    expect(ride.gearRecords.rearPosition[0]).toBe(8);
  });
});

describe('time', () => {
  test('records of one second become one, and lose nothing', () => {
    const records = plainRecords(10).flatMap(({ time, speed, cadence }): RawRecord[] => [
      { time, speed },
      { time, cadence },
    ]);
    const ride = ofRecords(records);
    expect(codes(ride)).toEqual(['repeated-time']);
    expect([...ride.speedMps]).toEqual(Array(10).fill(8));
    expect([...ride.cadenceRpm]).toEqual(Array(10).fill(90));
  });

  test('gaps stay gaps', () => {
    const ride = ofRecords([...plainRecords(10), ...plainRecords(10, START + 1000)]);
    expect(ride.timeS[10]).toBe(1000);
    expect(ride.timeS.length).toBe(20);
  });

  test('pauses are those of the timer', () => {
    const encoder = new FitEncoder().define(0, 20, [
      [253, 'uint32'],
      [6, 'uint16'],
    ]);
    encoder.define(1, 21, [
      [253, 'uint32'],
      [0, 'enum'],
      [1, 'enum'],
    ]);
    const event = (second: number, type: number) => encoder.record(1, [START + second, 0, type]);
    event(0, 0);
    for (let i = 0; i <= 20; i++) encoder.record(0, [START + i, 8000]);
    event(20, 4);
    event(21, 4);
    event(60, 0);
    for (let i = 60; i <= 80; i++) encoder.record(0, [START + i, 8000]);
    event(80, 4);
    expect(readRideLog('ride', encoder.segment()).pauses).toEqual([{ startS: 20, endS: 60 }]);
  });

  test('gear records: a little before the ride counts, far outside does not', () => {
    const gears = [-30_000, -5, 8, 30_000].map((second) => ({ time: START + second, word: GEAR }));
    const ride = readRideLog('ride', fitRide(plainRecords(10), gears, { gearsLast: true }));
    expect([...ride.gearRecords.timeS]).toEqual([-5, 8]);
    expect(codes(ride)).toEqual(['gear-outside-ride']);
  });
});

describe('speed', () => {
  test('none recorded: from distance', () => {
    const ride = ofRecords(plainRecords(30).map(({ speed, ...record }) => record));
    expect(ride.speedSource).toBe('distance');
    expect(codes(ride)).toEqual(['speed-from-distance']);
    for (const speed of ride.speedMps) expect(speed).toBeCloseTo(8, 9);
  });

  test('derived speed is not late, knows no bridge over gaps, and follows a sparse log', () => {
    const accelerating = Float64Array.from({ length: 20 }, (_, i) => (i * i) / 2);
    const seconds = Float64Array.from(accelerating.keys());
    const speed = speedFromDistance(seconds, accelerating);
    for (let i = 1; i < 19; i++) expect(speed[i]).toBeCloseTo(i, 9);
    const gap = speedFromDistance(Float64Array.of(0, 1, 101, 102), Float64Array.of(0, 8, 1000, 1008));
    expect([...gap]).toEqual([8, 8, 8, 8]);
    expect([...speedFromDistance(Float64Array.of(0, 100), Float64Array.of(0, NaN))]).toEqual([NaN, NaN]);
    const sparse = speedFromDistance(Float64Array.of(0, 20, 40, 60), Float64Array.of(0, 100, 200, 300));
    expect([...sparse]).toEqual([5, 5, 5, 5]);
  });

  test.each([
    ['a listed speed sensor', [[1, 123]], 'wheel'],
    ['a listed combined sensor', [[1, 121]], 'wheel'],
    ['a satellite receiver alone', [[5, 0]], 'satellite'],
    ['no device', [], 'unknown'],
  ] as const)('source: %s', (_, devices, source) => {
    const encoder = new FitEncoder().define(0, 20, [
      [253, 'uint32'],
      [6, 'uint16'],
    ]);
    encoder.define(1, 23, [
      [253, 'uint32'],
      [1, 'uint8'],
      [25, 'enum'],
    ]);
    for (const [sourceType, deviceType] of devices) encoder.record(1, [START, deviceType, sourceType]);
    for (let i = 0; i < 20; i++) encoder.record(0, [START + i, 8000]);
    expect(readRideLog('ride', encoder.segment()).speedSource).toBe(source);
  });

  test('speed that goes on where positions stop is a wheel', () => {
    const encoder = new FitEncoder().define(0, 20, [
      [253, 'uint32'],
      [0, 'sint32'],
      [1, 'sint32'],
      [6, 'uint16'],
    ]);
    for (let i = 0; i < 200; i++) {
      const position = i < 100 ? 500_000_000 + i * 900 : 0x7fffffff;
      encoder.record(0, [START + i, position, position, 8000]);
    }
    expect(readRideLog('tunnel', encoder.segment()).speedSource).toBe('wheel');
  });

  test('a virtual ride says so', () => {
    const ride = readRideLog('ride', fitRide(plainRecords(20), [], { subSport: 58 }));
    expect(codes(ride)).toEqual(['virtual-speed']);
    expect(ride.speedSource).toBe('computed');
    expect(ride.subSport).toBe('virtual_activity');
  });
});

describe('what is no ride is refused by name', () => {
  test('sports', () => {
    expect(refusal(fitRide(plainRecords(20), [], { sport: 1 })).code).toBe('not-cycling');
    expect(refusal(fitRide(plainRecords(20), [], { sport: 5 })).code).toBe('not-cycling');
    for (const [sport, subSport] of [
      [0, 0],
      [2, 8],
      [21, 0],
      [4, 6],
      [10, 0],
    ])
      expect(refusal(fitRide(plainRecords(20), [], { sport, subSport })).code).toBe('a ride');
  });

  /** Swimming, riding and running for 100 s each; what is null stands in no session. */
  const threeSports = (starts: (number | null)[], lengths: (number | null)[]): FitEncoder => {
    const encoder = new FitEncoder().define(0, 20, [
      [253, 'uint32'],
      [6, 'uint16'],
    ]);
    encoder.define(3, 18, [
      [253, 'uint32'],
      [2, 'uint32'],
      [5, 'enum'],
      [7, 'uint32'],
    ]);
    for (let i = 0; i < 300; i++) encoder.record(0, [START + i, 5000]);
    [5, 2, 1].forEach((sport, i) => {
      const [start, length] = [starts[i], lengths[i]];
      const missing = 0xffffffff;
      encoder.record(3, [
        START + i * 100 + 100,
        start === null ? missing : START + start,
        sport,
        length === null ? missing : length * 1000,
      ]);
    });
    return encoder;
  };

  test.each([
    ['all told', [0, 100, 200], [100, 100, 100]],
    ['no start of the ride', [0, null, 200], [100, 100, 100]],
    ['no length of the ride', [0, 100, 200], [100, null, 100]],
    ['neither', [0, null, 200], [100, null, 100]],
    ['no end of the swim', [0, null, 200], [null, 100, 100]],
  ])('in a file of several sports the riding is kept: %s', (_, starts, lengths) => {
    const ride = readRideLog('three', threeSports(starts, lengths).segment());
    expect(ride.timeS.length).toBe(100);
    expect(ride.startMs).toBe((START + 100 + 631_065_600) * 1000);
    expect(codes(ride)).toEqual(['other-sports-left-out']);
  });

  test('records without a time are told of in a file of several sports too', () => {
    const encoder = threeSports([0, 100, 200], [100, 100, 100]).record(0, [0xffffffff, 5000]);
    expect(codes(readRideLog('three', encoder.segment()))).toContain('records-without-time');
  });

  test.each([
    ['gzip', [0x1f, 0x8b, 8, 0]],
    ['zip', [0x50, 0x4b, 3, 4]],
    ['bzip2', [0x42, 0x5a, 0x68, 0x39]],
    ['xz', [0xfd, 0x37, 0x7a, 0x58, 0x5a, 0]],
  ])('packed with %s', (name, bytes) => {
    const { code, message } = refusal(Uint8Array.from(bytes), 'ride.fit.gz');
    expect(code).toBe('packed');
    expect(message).toContain(name);
    expect(message).toContain('ride.fit.gz');
  });

  test('nothing, noise, a picture', () => {
    expect(refusal(new Uint8Array(0)).code).toBe('empty');
    expect(refusal(Uint8Array.of(0, 0, 0, 0, 0, 0)).code).toBe('unknown-format');
    expect(refusal(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0)).code).toBe('unknown-format');
    for (const blank of ['\n', ' \n ', `\uFEFF${'\n'.repeat(5000)}`]) {
      const { code, message } = refusal(new TextEncoder().encode(blank));
      expect(code).toBe('empty');
      expect(message).toContain('holds nothing but empty lines');
    }
    expect(refusal(Uint8Array.of(0x0e, 0x02, 0xc4, 0x52, 0x9c)).message).toContain('is neither FIT nor text');
  });

  test('a text with a damaged byte is still one', () => {
    const bytes = new TextEncoder().encode('time_s,speed_mps,cadence_rpm\n0,5,80\n1,5,80\n');
    bytes[34] = 0x02;
    expect(readRideLog('ride.csv', bytes).format).toBe('csv');
  });

  test('the name does not matter', () => {
    expect(readRideLog('ride.csv', fitRide(plainRecords(5))).format).toBe('fit');
  });
});

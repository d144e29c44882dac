import { describe, expect, test } from 'vitest';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { chain, FitEncoder } from './fit-encoder.ts';
import { fitRide, plainRecords, START } from './fit-ride.ts';

const codes = (bytes: Uint8Array): string[] => readRideLog('damaged', bytes).warnings.map(({ code }) => code);
const length = (bytes: Uint8Array): number => readRideLog('damaged', bytes).timeS.length;
const whole = fitRide(plainRecords(100));
/** Bytes of one record of `fitRide` with its header byte and time stamp. */
const RECORD_BYTES = 15;

describe('a FIT file that is damaged keeps what is whole', () => {
  test('undamaged, nothing is said', () => {
    expect(codes(whole)).toEqual([]);
    expect(length(whole)).toBe(100);
  });

  test('wrong file CRC', () => {
    const bytes = fitRide(plainRecords(100), [], { crc: 0x1234 });
    expect(codes(bytes)).toEqual(['crc-wrong']);
    expect(length(bytes)).toBe(100);
  });

  test('wrong header CRC, and none', () => {
    expect(codes(fitRide(plainRecords(9), [], { headerCrc: 0x1234 }))).toEqual(['crc-wrong']);
    expect(codes(fitRide(plainRecords(9), [], { headerCrc: 0 }))).toEqual([]);
  });

  test('cut off after any number of bytes, no record before the cut is lost', () => {
    for (let cut = 1; cut < 60 * RECORD_BYTES; cut++) {
      const bytes = whole.subarray(0, whole.length - cut);
      const ride = readRideLog('cut', bytes);
      expect(ride.warnings.map(({ code }) => code)).toContain('cut-off');
      const bytesLost = cut - 2;
      const SESSION_BYTES = 15;
      const lost = Math.max(0, Math.ceil((bytesLost - SESSION_BYTES) / RECORD_BYTES));
      expect(ride.timeS.length).toBe(100 - lost);
    }
  });

  test('data size 0, with and without a CRC behind', () => {
    for (const noCrc of [true, false]) {
      const bytes = fitRide(plainRecords(100), [], { dataSize: 0, noCrc });
      expect(codes(bytes)).toEqual(['size-zero']);
      expect(length(bytes)).toBe(100);
    }
  });

  test('sizes that lie', () => {
    const short = fitRide(plainRecords(100), [], { dataSize: 300 });
    expect(codes(short)).toEqual(['crc-wrong', 'size-wrong']);
    expect(length(short)).toBe(100);
    const long = fitRide(plainRecords(100), [], { dataSize: 0xffffffff });
    expect(codes(long)).toEqual(['cut-off']);
    expect(length(long)).toBe(100);
  });

  test('a few broken records do not cost what stands behind them', () => {
    const long = fitRide(plainRecords(3600));
    for (const position of [500, 1111, 2222, 3000]) {
      for (let bit = 0; bit < 8; bit++) {
        const bytes = long.slice();
        const header = bytes.length - 2 - RECORD_BYTES * (3601 - position);
        expect(bytes[header]).toBe(0);
        bytes[header] ^= 1 << bit;
        const ride = readRideLog('broken', bytes);
        expect(ride.timeS.length).toBeGreaterThan(3600 - 60);
        expect(ride.timeS.at(-1)).toBe(3599);
        expect(codes(bytes)).toContain('crc-wrong');
      }
    }
  });

  test('a record without a definition, a reserved header bit, a definition of unknown byte order', () => {
    for (const broken of [[0x05], [0x10], [0x40, 0, 2, 20, 0, 1, 4, 1, 2]]) {
      const encoder = new FitEncoder();
      encoder.define(0, 20, [
        [253, 'uint32'],
        [4, 'uint8'],
      ]);
      for (let i = 0; i < 50; i++) encoder.record(0, [START + i, 90]);
      encoder.raw(...broken);
      for (let i = 50; i < 60; i++) encoder.record(0, [START + i, 90]);
      const bytes = encoder.segment();
      expect(codes(bytes)).toEqual(['bad-record']);
      expect(length(bytes)).toBe(60);
    }
  });

  test('a broken segment does not cost the next one', () => {
    const first = fitRide(plainRecords(50));
    const second = fitRide(plainRecords(50, START + 100));
    const cut = chain(first.subarray(0, first.length - 200), second);
    expect(codes(cut)).toContain('size-wrong');
    expect(length(cut)).toBeGreaterThan(85);
    const stray = chain(
      first,
      Uint8Array.from({ length: 40 }, () => 0x55),
      second,
    );
    expect(codes(stray)).toEqual(['stray-bytes']);
    expect(length(stray)).toBe(100);
    const junkBehind = chain(first, second, Uint8Array.of(1, 2, 3));
    expect(codes(junkBehind)).toEqual(['stray-bytes']);
    expect(length(junkBehind)).toBe(100);
  });
});

describe('what stands in a FIT file but belongs to no ride does no harm', () => {
  test('developer fields with hostile names', () => {
    const encoder = new FitEncoder();
    encoder.define(5, 206, [
      [0, 'uint8'],
      [1, 'uint8'],
      [2, 'uint8'],
      [3, 'string'],
    ]);
    const text = (name: string): number[] => [...Buffer.from(name)];
    for (const [i, name] of ['__proto__', 'speed', 'timestamp', 'constructor'].entries())
      encoder.record(5, [0, i, 2, text(name)]);
    encoder.define(
      0,
      20,
      [
        [253, 'uint32'],
        [6, 'uint16'],
      ],
      [0, 1, 2, 3].map((i) => [i, 1, 0] as const),
    );
    for (let i = 0; i < 20; i++) encoder.record(0, [START + i, 8000], [1, 2, 3, 4]);
    const ride = readRideLog('developer', encoder.segment());
    expect([...ride.speedMps]).toEqual(Array(20).fill(8));
    expect(Object.prototype).not.toHaveProperty('speed');
  });

  test('fields of a wrong size or type are left out, fields given twice count once', () => {
    const encoder = new FitEncoder();
    encoder.define(0, 20, [
      [253, 'uint32'],
      [6, 'uint32'],
      [4, 'sint8'],
      [7, 'uint16'],
      [7, 'uint16'],
    ]);
    for (let i = 0; i < 5; i++) encoder.record(0, [START + i, 8000, 90, 200, 210]);
    const ride = readRideLog('types', encoder.segment());
    expect([...ride.speedMps]).toEqual(Array(5).fill(NaN));
    expect([...ride.cadenceRpm]).toEqual(Array(5).fill(NaN));
    expect([...ride.powerW]).toEqual(Array(5).fill(210));
  });

  test('a definition may change under way', () => {
    const encoder = new FitEncoder();
    for (let i = 0; i < 40; i++) {
      const bare = i % 2 === 0;
      encoder.define(
        0,
        20,
        bare
          ? [
              [253, 'uint32'],
              [6, 'uint16'],
            ]
          : [
              [6, 'uint16'],
              [4, 'uint8'],
              [253, 'uint32'],
            ],
      );
      encoder.record(0, bare ? [START + i, 8000] : [9000, 80, START + i]);
    }
    const ride = readRideLog('redefined', encoder.segment());
    expect([...ride.speedMps]).toEqual(Array.from({ length: 40 }, (_, i) => (i % 2 === 0 ? 8 : 9)));
    expect(ride.cadenceRpm[1]).toBe(80);
  });

  test('the four gear fields count where the word says nothing', () => {
    const encoder = new FitEncoder();
    encoder.define(0, 20, [
      [253, 'uint32'],
      [6, 'uint16'],
    ]);
    encoder.record(0, [START, 8000]).record(0, [START + 1, 8000]);
    encoder.define(1, 21, [
      [253, 'uint32'],
      [0, 'enum'],
      [1, 'enum'],
      [9, 'uint8z'],
      [10, 'uint8z'],
      [11, 'uint8z'],
      [12, 'uint8z'],
    ]);
    encoder.record(1, [START + 1, 43, 3, 1, 34, 5, 21]);
    const { gearRecords } = readRideLog('fields', encoder.segment());
    expect([gearRecords.frontPosition[0], gearRecords.frontTeeth[0]]).toEqual([1, 34]);
    expect([gearRecords.rearPosition[0], gearRecords.rearTeeth[0]]).toEqual([5, 21]);
  });
});

test('compressed speed and distance are unpacked, and the distance rolls over every 256 m', () => {
  const encoder = new FitEncoder().define(0, 20, [
    [253, 'uint32'],
    [8, 'bytes3'],
  ]);
  const speeds = Array.from({ length: 100 }, (_, i) => 500 + 7 * i);
  let sixteenths = 0;
  speeds.forEach((speed, i) => {
    sixteenths += Math.round((speed / 100) * 16);
    const distance = sixteenths % 4096;
    encoder.record(0, [START + i, [speed & 0xff, (speed >> 8) | ((distance & 0x0f) << 4), distance >> 4]]);
  });
  const ride = readRideLog('packed', encoder.segment());
  expect([...ride.speedMps]).toEqual(speeds.map((speed) => speed / 100));
  expect(ride.distanceM.at(-1)).toBe(sixteenths / 16);
});

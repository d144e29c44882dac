import { expect, test } from 'vitest';
import { fitCrc } from '../../src/ride-log/fit/fit-crc.ts';
import { unpackGearWord } from '../../src/ride-log/fit/gear-word.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import checks from '../checks/fit-protocol.json' with { type: 'json' };
import { fitCrcByNibbles } from './fit-crc-by-nibbles.ts';
import { FitEncoder, type FitFieldSpec } from './fit-encoder.ts';
import { START } from './fit-ride.ts';

const fromHex = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex.replaceAll(' ', ''), 'hex'));
const number = (hex: string): number => Number.parseInt(hex, 16);

test.each(checks.crc.rows)('the CRC of $hex is $crc', ({ hex, crc }) => {
  expect(fitCrc(fromHex(hex))).toBe(number(crc));
  expect(fitCrcByNibbles(fromHex(hex))).toBe(number(crc));
});

test('the CRC is not that of another standard', () => {
  expect(fitCrc(fromHex(checks.crc.notThis.hex))).not.toBe(number(checks.crc.notThis.crc));
});

test('the CRC of every byte is that of the published table', () => {
  for (let byte = 0; byte < 256; byte++) {
    const bytes = Uint8Array.of(0x5a, byte);
    expect(fitCrc(bytes)).toBe(fitCrcByNibbles(bytes));
  }
});

test('the smallest legal file is known for FIT and holds no ride', () => {
  expect(() => readRideLog('small', fromHex(checks.smallestFile.hex))).toThrow(
    expect.objectContaining({ code: 'no-records' }),
  );
});

test.each(checks.epoch.rows)('FIT second $fitSeconds is $iso', ({ fitSeconds, iso }) => {
  const bytes = new FitEncoder()
    .define(0, 20, [
      [253, 'uint32'],
      [4, 'uint8'],
    ])
    .record(0, [fitSeconds, 90])
    .segment();
  expect(new Date(readRideLog('epoch', bytes).startMs).toISOString()).toBe(iso);
});

test('compressed time stamps roll over every 32 seconds', () => {
  const base = Math.floor(START / 256) * 256;
  const { before, rows } = checks.compressedTime;
  const encoder = new FitEncoder().define(0, 20, [
    [253, 'uint32'],
    [7, 'uint16'],
  ]);
  encoder.define(1, 20, [[7, 'uint16']]).record(0, [base + number(before) - 1, 99]);
  encoder.record(0, [base + number(before), 100]);
  rows.forEach(({ header }, i) => {
    expect(number(header) >> 5).toBe(0b101);
    encoder.compressed(1, number(header) & 31, [200 + i]);
  });
  const ride = readRideLog('compressed', encoder.segment());
  const times = Array.from(ride.timeS, (timeS) => ride.startMs / 1000 - 631_065_600 + timeS - base);
  const expected = [number(before) - 1, ...new Set([number(before), ...rows.map(({ time }) => number(time))])];
  expect(times).toEqual(expected);
  expect(ride.powerW.at(-1)).toBe(200 + rows.length - 1);
});

test.each(checks.compressedHeader.rows)('header byte $header is local type $localType, $offsetS s on', (row) => {
  const base = Math.ceil(START / 32) * 32;
  const encoder = new FitEncoder().define(0, 20, [
    [253, 'uint32'],
    [7, 'uint16'],
  ]);
  // of the four local types that such a header can name, each takes the watts for something else
  for (const local of [1, 2, 3]) encoder.define(local, 20, [[local === row.localType ? 7 : 3, 'uint16']]);
  encoder
    .record(0, [base - 1, 99])
    .record(0, [base, 100])
    .raw(number(row.header), 200, 0);
  const ride = readRideLog('header', encoder.segment());
  expect(ride.startMs / 1000 - 631_065_600 + (ride.timeS.at(-1) ?? 0)).toBe(base + row.offsetS);
  expect(ride.powerW.at(-1)).toBe(200);
});

test.each(checks.eventNumber.rows)('an event $event with a gear word is a gear change: $gearChange', (row) => {
  const encoder = new FitEncoder()
    .define(0, 20, [
      [253, 'uint32'],
      [7, 'uint16'],
    ])
    .define(2, 21, [
      [253, 'uint32'],
      [0, 'enum'],
      [1, 'enum'],
      [3, 'uint32'],
    ]);
  for (let second = 0; second < 5; second++) encoder.record(0, [START + second, 100]);
  encoder.record(2, [START + 2, row.event, 3, number(checks.gearWord.rows[0].word)]);
  const { gearRecords } = readRideLog('event', encoder.segment());
  expect(gearRecords.timeS).toHaveLength(row.gearChange ? 1 : 0);
});

test.each(checks.gearWord.rows)('gear word $word', ({ word, ...parts }) => {
  expect(unpackGearWord(number(word))).toEqual(parts);
});

const FIELDS: Record<string, FitFieldSpec> = {
  cadence: [4, 'uint8'],
  speed: [6, 'uint16'],
  enhanced_speed: [73, 'uint32'],
  distance: [5, 'uint32'],
  power: [7, 'uint16'],
};

test.each(checks.invalid.rows)('$field $raw is $value', ({ field, raw, column, value }) => {
  for (const bigEndian of [false, true]) {
    const encoder = new FitEncoder({ bigEndian }).define(0, 20, [[253, 'uint32'], FIELDS[field]]);
    const ride = readRideLog('one', encoder.record(0, [START, raw]).segment());
    const [read] = ride[column as 'speedMps' | 'cadenceRpm' | 'powerW' | 'distanceM'];
    if (value === null) expect(read).toBeNaN();
    else expect(Math.abs(read - value)).toBeLessThan(checks.invalid.tolerance);
  }
});

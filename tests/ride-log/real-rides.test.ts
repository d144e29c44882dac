import FitParser from 'fit-file-parser';
import { describe, expect, test } from 'vitest';
import type { FileError } from '../../src/errors/file-error.ts';
import { decodeFit } from '../../src/ride-log/fit/decode-fit.ts';
import { unpackGearWord } from '../../src/ride-log/fit/gear-word.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { haveRealRides, realRide } from './real-rides.ts';

const known = (values: Float64Array): number => values.filter((value) => !Number.isNaN(value)).length;

/** File; records; with speed, cadence, power; speed source; gear records; pauses; warnings. */
const RIDES = [
  ['gears-cadence-power-20h.fit', 58_080, 58_077, 58_050, 58_049, 'wheel', 4311, 62, []],
  ['gears-cadence-wheel-sensor.fit', 9925, 9925, 9925, 0, 'wheel', 628, 7, []],
  ['gears-no-cadence-a.fit', 7251, 7251, 0, 0, 'satellite', 353, 0, []],
  ['gears-no-cadence-b.fit', 14_456, 14_452, 0, 0, 'satellite', 180, 0, []],
  ['gears-no-cadence-c.fit', 3666, 3666, 0, 0, 'satellite', 150, 0, []],
  ['plain-power-a.fit', 4746, 4746, 4657, 4740, 'satellite', 0, 6, []],
  ['plain-b.fit', 10_671, 10_671, 10_550, 0, 'wheel', 0, 46, ['repeated-time']],
  ['plain-power-c.fit', 4700, 4700, 4634, 4700, 'wheel', 0, 0, []],
  ['plain-smart-recording.fit', 3095, 3095, 3012, 0, 'wheel', 0, 28, ['repeated-time']],
  ['indoor-wheel-sensor-power.fit', 3675, 3675, 3675, 3675, 'wheel', 0, 0, []],
  ['indoor-no-speed.fit', 2255, 0, 2222, 2222, 'unknown', 0, 0, []],
  ['virtual-simulated-speed.fit', 1808, 1808, 1808, 1808, 'computed', 0, 0, ['virtual-speed']],
  ['chained-sparse.fit', 855, 855, 1, 0, 'satellite', 0, 0, ['other-sports-left-out']],
  ['truncated.fit', 14_383, 14_383, 14_383, 14_383, 'unknown', 0, 8, ['crc-wrong', 'bad-record', 'repeated-time']],
  ['no-cadence.gpx', 513, 494, 0, 0, 'positions', 0, 0, ['records-without-time', 'speed-from-positions']],
] as const;

const REFUSED = [
  ['compressed.fit', 'not-cycling'],
  ['corrupt-header.fit', 'not-cycling'],
  ['unexpected-eof.fit', 'not-cycling'],
  ['no-cadence.tcx', 'not-cycling'],
  ['not-a-ride.fit', 'no-records'],
] as const;

describe.skipIf(!haveRealRides)('real rides', () => {
  test.each(RIDES)('%s', (name, records, speed, cadence, power, source, gears, pauses, warnings) => {
    const log = readRideLog(name, realRide(name));
    expect(log.timeS.length).toBe(records);
    expect([known(log.speedMps), known(log.cadenceRpm), known(log.powerW)]).toEqual([speed, cadence, power]);
    expect(log.speedSource).toBe(source);
    expect(log.gearRecords.timeS.length).toBe(gears);
    expect(log.pauses?.length).toBe(pauses);
    expect(log.warnings.map(({ code }) => code)).toEqual(warnings);
    expect(log.timeS[0]).toBe(0);
    expect(log.timeS.every((time, i) => i === 0 || time > log.timeS[i - 1])).toBe(true);
  });

  test.each(REFUSED)('%s is refused: %s', (name, code) => {
    expect(() => readRideLog(name, realRide(name))).toThrow(expect.objectContaining<Partial<FileError>>({ code }));
  });

  test.each([
    ['corrupt-header.fit', 14, ['stray-bytes']],
    ['unexpected-eof.fit', 14, ['cut-off']],
    ['compressed.fit', 754, []],
  ] as const)('%s: what its damage leaves', (name, records, warnings) => {
    // The sport of these three is running; their records are read all the same before they are refused.
    const { draft } = decodeFit(name, realRide(name));
    expect(draft.length).toBe(records);
    expect(draft.warnings.map(({ code }) => code)).toEqual(warnings);
  });

  test('compressed distance adds up to what the session says, within a sixteenth of a metre', () => {
    const { draft } = decodeFit('compressed.fit', realRide('compressed.fit'));
    expect(Math.abs((draft.distanceM.values().at(-1) ?? 0) - 10_248.67)).toBeLessThan(1 / 16);
  });

  test.each(RIDES.map(([name]) => name).filter((name) => name.endsWith('.fit') && !/chained|truncated/.test(name)))(
    '%s: no value differs from the whole file given to the library',
    (name) => {
      const log = readRideLog(name, realRide(name));
      const rows = byLibrary(realRide(name));
      const seen = { speedMps: 0, cadenceRpm: 0, powerW: 0, distanceM: 0 };
      log.timeS.forEach((timeS, i) => {
        const row = rows.records.get(log.startMs + timeS * 1000);
        expect(row).toBeDefined();
        for (const column of ['speedMps', 'cadenceRpm', 'powerW', 'distanceM'] as const) {
          if (!Object.is(log[column][i], row?.[column]))
            throw new Error(`${column} ${i}: ${log[column][i]}, ${row?.[column]}`);
          seen[column]++;
        }
      });
      const { gearRecords } = log;
      const gears = rows.gears.sort((a, b) => a.ms - b.ms);
      expect(Array.from(gearRecords.timeS, (timeS) => log.startMs + timeS * 1000)).toEqual(gears.map(({ ms }) => ms));
      expect([...gearRecords.rearTeeth]).toEqual(gears.map(({ word }) => unpackGearWord(word).rearTeeth));
      expect([...gearRecords.frontTeeth]).toEqual(gears.map(({ word }) => unpackGearWord(word).frontTeeth));
    },
  );
});

type Row = Record<'speedMps' | 'cadenceRpm' | 'powerW' | 'distanceM', number>;

const timeOf = (message: object): number => (message as { timestamp: Date }).timestamp.getTime();

/** The whole file by the library alone, records of one second joined as the reader joins them. */
function byLibrary(bytes: Uint8Array<ArrayBuffer>): {
  records: Map<number, Row>;
  gears: { ms: number; word: number }[];
} {
  const records = new Map<number, Row>();
  const gears: { ms: number; word: number }[] = [];
  new FitParser({ force: true, mode: 'list' }).parse(bytes.buffer, (error, data) => {
    if (error || !data) throw new Error(error);
    for (const record of data.records ?? []) {
      const ms = timeOf(record);
      const row = records.get(ms) ?? { speedMps: NaN, cadenceRpm: NaN, powerW: NaN, distanceM: NaN };
      row.speedMps = record.enhanced_speed ?? record.speed ?? row.speedMps;
      if (record.cadence !== undefined) row.cadenceRpm = record.cadence + (record.fractional_cadence ?? 0);
      row.powerW = record.power ?? row.powerW;
      row.distanceM = record.distance ?? row.distanceM;
      records.set(ms, row);
    }
    for (const event of data.events ?? []) {
      if (!/gear_change/.test(String(event.event))) continue;
      gears.push({ ms: timeOf(event), word: event.data as number });
    }
  });
  return { records, gears };
}

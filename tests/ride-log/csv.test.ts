import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { soundOutcome } from './sound-outcome.ts';

const read = (text: string): RideLog => readRideLog('ride.csv', new TextEncoder().encode(text));
const codes = (text: string): string[] => read(text).warnings.map(({ code }) => code);
const code = (text: string): string => soundOutcome(new TextEncoder().encode(text), 'ride.csv');

test('what is written is read: any delimiter, any order of columns, byte-order mark or not', () => {
  const row = fc.record({
    stepMs: fc.integer({ min: 1, max: 5000 }),
    speed: fc.option(fc.integer({ min: 0, max: 40_000 }), { nil: null }),
    cadence: fc.option(fc.integer({ min: 0, max: 2300 }), { nil: null }),
    power: fc.option(fc.integer({ min: 0, max: 3000 }), { nil: null }),
    rear: fc.option(fc.integer({ min: 9, max: 52 }), { nil: null }),
    front: fc.option(fc.constantFrom(32, 34, 50), { nil: null }),
  });
  const style = fc.record({
    delimiter: fc.constantFrom(',', ';', '\t'),
    comma: fc.boolean(),
    mark: fc.boolean(),
    newline: fc.constantFrom('\n', '\r\n'),
    seed: fc.integer({ min: 0, max: 5 }),
    iso: fc.boolean(),
    quoted: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 40 }), style, (rows, how) => {
      const startMs = how.iso ? Date.UTC(2026, 5, 1, 8) : 0;
      let ms = startMs;
      const times = rows.map(({ stepMs }, i) => {
        if (i > 0) ms += stepMs;
        return ms;
      });
      const write = (value: number | null, scale: number): string => {
        const text = value === null ? '' : String(value / scale);
        const local = how.delimiter === ';' && how.comma ? text.replace('.', ',') : text;
        return how.quoted ? `"${local}"` : local;
      };
      const names = [how.iso ? 'time' : 'time_s', 'speed_mps', 'cadence_rpm', 'power_w', 'rear_teeth', 'front_teeth'];
      const cells = rows.map((values, i) => [
        how.iso ? new Date(times[i]).toISOString() : write(times[i], 1000),
        write(values.speed, 1000),
        write(values.cadence, 10),
        write(values.power, 1),
        write(values.rear, 1),
        write(values.front, 1),
      ]);
      const turn = (line: string[]): string =>
        [...line.slice(how.seed), ...line.slice(0, how.seed)].join(how.delimiter);
      const text = (how.mark ? '\uFEFF' : '') + [names, ...cells].map(turn).join(how.newline) + how.newline;
      const log = read(text);
      const orNaN = (value: number | null, scale: number): number => (value === null ? NaN : value / scale);
      expect(log.warnings).toEqual([]);
      // a row that changes the gear and measures nothing is no record, unless the whole file is of such rows
      const measured = rows.map(({ speed, cadence, power }) => [speed, cadence, power].some((value) => value !== null));
      let gear = '0 0';
      const named = rows.map((values) => {
        const before = gear;
        const [rear, front] = before.split(' ');
        gear = `${values.rear ?? rear} ${values.front ?? front}`;
        return gear !== before;
      });
      const some = rows.some((_, i) => measured[i] || !named[i]);
      const kept = [...rows.keys()].filter((i) => !some || measured[i] || !named[i]);
      const firstMs = times[kept[0]];
      const of = (column: 'speed' | 'cadence' | 'power', scale: number): number[] =>
        kept.map((i) => orNaN(rows[i][column], scale));
      expect(log.startMs).toBe(firstMs);
      expect([...log.timeS]).toEqual(kept.map((i) => (times[i] - firstMs) / 1000));
      expect([...log.speedMps]).toEqual(of('speed', 1000));
      expect([...log.cadenceRpm]).toEqual(of('cadence', 10));
      expect([...log.powerW]).toEqual(of('power', 1));
      let rear = 0;
      let front = 0;
      const gears = rows.flatMap((values, i) => {
        const before = [rear, front];
        rear = values.rear ?? rear;
        front = values.front ?? front;
        return before[0] === rear && before[1] === front ? [] : [[(times[i] - firstMs) / 1000, rear, front]];
      });
      const { timeS, rearTeeth, frontTeeth } = log.gearRecords;
      expect(Array.from(timeS, (time, i) => [time, rearTeeth[i], frontTeeth[i]])).toEqual(gears);
    }),
    { numRuns: 300, seed: 20_260_603 },
  );
});

describe('gear records are in whole seconds', () => {
  const wholeSeconds = (times: readonly number[]): boolean =>
    read(`time_s,speed_mps,rear_teeth\n${times.map((time, i) => `${time},8,${11 + (i % 9)}\n`).join('')}`).gearRecords
      .wholeSeconds;
  const seconds = [...Array(30).keys()];

  test.each([
    ['a log of whole seconds', seconds, true],
    ['a log once a second at 0.3 s', seconds.map((time) => time + 0.3), true],
    ['one about the full second', seconds.map((time) => time + 9.99 + 0.02 * (time % 2)), true],
    ['one stray stamp', seconds.map((time) => (time === 0 ? 0.5 : time)), true],
    ['one stray stamp of few', [0.5, 3, 7, 8], true],
    ['times to the tenth', seconds.map((time) => time + ((7 * time) % 10) / 10), false],
    ['times to the half', seconds.map((time) => time + (time % 3 === 0 ? 0.5 : 0)), false],
    ['two apart', [0.5, 3], false],
  ])('%s: %j', (_, times, expected) => {
    expect(wholeSeconds(times)).toBe(expected);
  });

  test('whatever the times of rows that name no gear', () => {
    const ride = read('time_s,speed_mps,rear_teeth\n0,8,21\n0.5,8,\n1.25,8,\n4,8,19\n6,8,17\n');
    expect(ride.gearRecords.wholeSeconds).toBe(true);
  });
});

describe('faults in CSV', () => {
  const head = 'time_s,speed_mps,cadence_rpm,rear_teeth';

  test('bad cells are left out and named by line', () => {
    const ride = read(`${head}\n0,8,90,21\n1,fast,91,21\n2,8,-,twenty\n3,8,93,0\n`);
    expect([...ride.speedMps]).toEqual([8, NaN, 8, 8]);
    expect([...ride.gearRecords.rearTeeth]).toEqual([21, 0]);
    const [{ code, message }] = ride.warnings;
    expect(code).toBe('bad-values');
    expect(message).toContain("line 3, speed_mps: 'fast'");
    expect(message).toMatch(/^4 values/);
  });

  test('hexadecimal, Infinity and decimal commas between commas are no numbers', () => {
    for (const cell of ['0x10', 'Infinity', '1e999', '"5,5"', '1 000'])
      expect(codes(`${head}\n0,8,90,21\n1,${cell},91,\n`)).toEqual(['bad-values']);
  });

  test('times beyond any calendar are bad values, in seconds as in ISO 8601', () => {
    for (const far of ['1e16', '-1e16', '1e20', '1780000000000']) {
      const ride = read(`time_s,speed_mps,rear_teeth\n${far},8,21\n5,8,19\n6,8,\n`);
      expect(ride.warnings[0]).toMatchObject({ code: 'bad-values' });
      expect(ride.warnings[0].message).toContain(`line 2, time_s: '${far}'`);
      expect([ride.startMs, ...ride.timeS, ...ride.gearRecords.rearTeeth]).toEqual([5000, 0, 1, 19]);
    }
    expect(code('time_s,speed_mps\n1e16,8\n1e16,9\n')).toBe('no-time');
    expect(codes('time,speed_mps\n9026-06-01T08:00:00Z,8\n2026-06-01T08:00:01Z,8\n')).toEqual([
      'bad-values',
      'records-without-time',
    ]);
  });

  test('a file cut off within its last time holds no record at midnight', () => {
    const ride = read('time,speed_mps\n2026-06-01T08:00:00Z,8\n2026-06-01T08:00:01Z,8\n2026-06-01');
    expect([...ride.timeS]).toEqual([0, 1]);
    expect(ride.startMs).toBe(Date.UTC(2026, 5, 1, 8));
    expect(ride.warnings[0]).toMatchObject({ code: 'bad-values' });
    expect(ride.warnings[0].message).toContain("line 4, time: '2026-06-01'");
  });

  test('unknown columns, short rows, rows with empty cells at the end, empty lines', () => {
    const ride = read('time_s,mood,speed_mps\n0,good,8\n\n1\n2,bad,9,, \n');
    expect([...ride.speedMps]).toEqual([8, NaN, 9]);
    expect(ride.warnings.map(({ code }) => code)).toEqual(['unknown-columns']);
  });

  test('a few rows of too many cells are left out, for their columns are not known', () => {
    const ride = read('time_s,speed_mps\n0,8\n1,9,10,11\n2,9\n');
    expect([...ride.timeS]).toEqual([0, 2]);
    expect(ride.warnings).toEqual([
      {
        code: 'long-rows',
        message:
          '1 row with more cells than the header line: left out (line 3 has 4 cells, more than the 2 of the header line).',
      },
    ]);
  });

  test('decimal commas are seen where most rows end in an empty cell', () => {
    const rows = Array.from({ length: 100 }, (_, i) => `${i},4,038,${i % 40 === 0 ? 11 + i / 40 : ''}\n`);
    expect(code(`time_s,speed_mps,rear_teeth\n${rows.join('')}`)).toBe('bad-csv');
    const ended = rows.map((_, i) => `${i},4.038,11,${i === 40 ? 'x' : ''}\n`);
    expect(codes(`time_s,speed_mps,rear_teeth\n${ended.join('')}`)).toEqual(['long-rows']);
  });

  test('decimal commas among commas are refused with what to do', () => {
    const text = 'time_s,speed_mps,cadence_rpm\n0,4,038,79\n1,3,932,78\n2,4,78\n';
    expect(code(text)).toBe('bad-csv');
    expect(() => read(text)).toThrow(
      'ride.csv: line 2 has 4 cells, more than the 3 of the header line. Numbers are probably written with a decimal comma: write them with a point, or put semicolons between the cells.',
    );
  });

  test('a column that is there twice is said to be, not taken for an unknown one', () => {
    const ride = read('time_s,speed_mps,Speed_mps,mood\n0,8,9,good\n');
    expect([...ride.speedMps]).toEqual([8]);
    expect(ride.warnings.map(({ message }) => message)).toEqual([
      'Columns that mean nothing here were left out: mood.',
      'Columns that stand in the header line more than once: speed_mps. Of each the first was read.',
    ]);
  });

  test('times without a zone are UTC, and it is said', () => {
    const ride = read('time,speed_mps\n2026-06-01T08:00:00,8\n2026-06-01 08:00:01,8\n');
    expect(ride.startMs).toBe(Date.UTC(2026, 5, 1, 8));
    expect(ride.warnings.map(({ code }) => code)).toEqual(['no-time-zone']);
  });

  test('what cannot be used is refused', () => {
    expect(code('speed_mps,cadence_rpm\n8,90\n')).toBe('no-time');
    expect(code('name,age\nx,1\n')).toBe('unknown-format');
    expect(code('hello')).toBe('unknown-format');
    expect(code('time_s,speed_mps\n')).toBe('no-records');
    expect(code('time_s,speed_mps\n,8\n')).toBe('no-time');
    expect(code('time_s,speed_mps\n0,"8\n1,8\n')).toBe('bad-csv');
    expect(code(`time_s,${'x'.repeat(100_000)}\n0,1\n`)).toBe('bad-csv');
  });

  test('UTF-16 is read', () => {
    const text = `\uFEFF${head}\n0,8,90,21\n`;
    expect(readRideLog('wide', Uint8Array.from(Buffer.from(text, 'utf16le'))).speedMps[0]).toBe(8);
  });
});

import { describe, expect, test } from 'vitest';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

const read = (head: string, lines: readonly string[]): RideLog =>
  readRideLog('ride.csv', new TextEncoder().encode(`${[head, ...lines].join('\n')}\n`));

describe('times that cannot be read are named, not taken for a planned route', () => {
  const iso = 'Write 2026-06-01T08:00:00Z, or seconds from the start as time_s.';
  test.each([
    ['time', '06/01/2026 08:00:00', iso],
    ['time', '01.06.2026 08:00:00', iso],
    ['time', '1780300800', 'Seconds go into a column time_s; the column time is written 2026-06-01T08:00:00Z.'],
    [
      'time_s',
      '2026-06-01T08:00:00Z',
      'Write seconds, as 12.5; a date and time goes into a column time, as 2026-06-01T08:00:00Z.',
    ],
  ])('%s: %s', (column, cell, mend) => {
    expect(() => read(`${column},speed_mps`, [`${cell},5`, `${cell},6`])).toThrow(
      `ride.csv: column ${column}, line 2: '${cell}' cannot be read as a time. ${mend}`,
    );
  });

  test('empty ones are none', () => {
    expect(() => read('time,speed_mps', [',5'])).toThrow('holds 1 record, but none says when it was');
  });
});

test('time_s in milliseconds, from the start or of the calendar, is read as such, and it is said', () => {
  const startMs = Date.UTC(2026, 5, 1, 8);
  for (const from of [0, startMs]) {
    const ride = read(
      'time_s,speed_mps',
      Array.from({ length: 20 }, (_, i) => `${from + 1000 * i},5`),
    );
    expect(ride.startMs).toBe(from);
    expect([...ride.timeS]).toEqual([...Array(20).keys()]);
    expect(ride.warnings).toEqual([
      { code: 'time-unit', message: 'time_s goes up by 1,000 from row to row: it was read as milliseconds.' },
    ]);
  }
});

test('a few rows far apart, and rows a minute apart, are seconds', () => {
  expect(read('time_s,speed_mps', ['0,5', '1000,5', '2000,5']).timeS.at(-1)).toBe(2000);
  const slow = Array.from({ length: 30 }, (_, i) => `${60 * i},5`);
  expect(read('time_s,speed_mps', slow).timeS.at(-1)).toBe(29 * 60);
});

test('decimal commas are understood with tabs as with semicolons', () => {
  for (const mark of ['\t', ';']) {
    const ride = read(['time_s', 'speed_mps'].join(mark), [`0,0${mark}4,197`, `1,0${mark}4,278`]);
    expect([...ride.speedMps]).toEqual([4.197, 4.278]);
    expect([[...ride.timeS], ride.warnings]).toEqual([[0, 1], []]);
  }
});

test('a date of a clock that was never set is told from seconds alone', () => {
  const dated = read('time,speed_mps', ['1989-12-31T00:00:00Z,5', '1989-12-31T00:00:01Z,5']);
  expect(dated.warnings).toEqual([
    {
      code: 'clock-not-set',
      message: expect.stringMatching(/dated 1989, and counts as one without a date\. Set the clock/),
    },
  ]);
  expect(read('time_s,speed_mps', ['0,5', '1,5']).warnings).toEqual([]);
});

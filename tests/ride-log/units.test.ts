import { describe, expect, test } from 'vitest';
import { columnHints } from '../../src/ride-log/csv/column-hints.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

const read = (head: string, lines: readonly string[]): RideLog =>
  readRideLog('ride.csv', new TextEncoder().encode(`${[head, ...lines].join('\n')}\n`));
const ride = (cadence: (second: number) => number, seconds = 100): RideLog =>
  read(
    'time_s,speed_mps,cadence_rpm',
    Array.from({ length: seconds }, (_, i) => `${i},5,${cadence(i)}`),
  );

describe('cadence', () => {
  test('in turns a second is read as such, and it is said', () => {
    const log = ride((i) => (i % 10 === 0 ? 0 : 1.25 + (i % 4) / 10));
    expect([...log.cadenceRpm.slice(0, 3)]).toEqual([0, 81, 87]);
    expect(log.warnings).toEqual([
      {
        code: 'cadence-unit',
        message: 'Recorded cadence stays under 4: it was read as turns a second, not a minute.',
      },
    ]);
  });

  test('in turns a minute stays as it is: of a bike that stands, of too few seconds, with a low reading', () => {
    for (const log of [ride(() => 0), ride((i) => i % 3), ride(() => 1.3, 20), ride((i) => (i < 50 ? 1.5 : 80))])
      expect(log.warnings).toEqual([]);
  });
});

describe('columns under another name', () => {
  test.each([
    [['speed_kmh'], ['time'], 'Rename speed_kmh to speed_mps (divide by 3.6).'],
    [['Distance (km)', 'mood'], ['time_s'], 'Rename Distance (km) to distance_m (multiply by 1000).'],
    [['time_ms'], [], 'Rename time_ms to time_s (divide by 1000).'],
    [['speed', 'timestamp'], ['time_s', 'speed_mps'], ''],
    [['heart_rate', 'temperature'], ['time'], ''],
  ] as const)('%j beside %j', (unknown, known, hint) => {
    expect(columnHints(unknown, known)).toBe(hint);
  });

  test('are named where a file is refused or a column left out', () => {
    expect(() => read('timestamp,speed,cadence,front_gear,rear_gear', ['2026-06-01T08:00:00Z,4,80,32,24'])).toThrow(
      'Rename timestamp to time (as 2026-06-01T08:00:00Z), speed to speed_mps (metres a second), cadence to cadence_rpm (turns a minute), front_gear to front_teeth (the teeth of the chainring), rear_gear to rear_teeth (the teeth of the cog).',
    );
    expect(() => read('timestamp,speed_mps', ['1,4'])).toThrow(
      'has no column time or time_s. Rename timestamp to time (as 2026-06-01T08:00:00Z).',
    );
    expect(read('time_s,speed_kmh', ['0,14']).warnings[0].message).toBe(
      'Columns that mean nothing here were left out: speed_kmh. Rename speed_kmh to speed_mps (divide by 3.6).',
    );
  });
});

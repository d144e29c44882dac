import { expect, test } from 'vitest';
import { leaveOutParts } from '../../src/cli/leave-out-parts.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

const ride = (file: string, gears: boolean): RideLog => {
  const rows = Array.from({ length: 200 }, (_, second) => {
    const time = new Date(Date.UTC(2026, 4, 1, 8, 0, second)).toISOString();
    return `${time},${5 + (second % 7) / 10},${80 + (second % 5)},${gears ? 11 + (second % 3) : ''}\n`;
  });
  return readRideLog(file, new TextEncoder().encode(`time,speed_mps,cadence_rpm,rear_teeth\n${rows.join('')}`));
};

test('of two files of one ride the one with gear records counts, whichever comes first', () => {
  for (const order of [
    ['full', 'bare'],
    ['bare', 'full'],
  ]) {
    const logs = order.map((file) => ride(file, file === 'full'));
    const { logs: kept, failed } = leaveOutParts({ logs, failed: [] });
    expect([kept.map(({ file }) => file), failed.map(({ file }) => file)]).toEqual([['full'], ['bare']]);
  }
});

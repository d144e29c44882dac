import { expect, test } from 'vitest';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { isPartOfRide } from '../../src/ride-log/part-of-ride.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

interface Made {
  readonly from?: number;
  readonly to?: number;
  readonly startMs?: number;
  readonly off?: number;
  readonly gears?: boolean;
}
const START_MS = Date.UTC(2026, 4, 1, 8);

/** Seconds `from` to `to` of one recording, with speed off by `off` m/s. */
const made = ({ from = 0, to = 200, startMs = START_MS, off = 0, gears = true }: Made = {}): RideLog => {
  const rows = Array.from({ length: to - from }, (_, i) => {
    const second = from + i;
    const time = new Date(startMs + 1000 * second).toISOString();
    return `${time},${5 + (second % 7) / 10 + off},${80 + (second % 5)},${gears ? 11 + (second % 3) : ''}\n`;
  });
  return readRideLog('made', new TextEncoder().encode(`time,speed_mps,cadence_rpm,rear_teeth\n${rows.join('')}`));
};

test.each<[string, Made, boolean]>([
  ['a stretch', { from: 50, to: 150 }, true],
  ['all of it', {}, true],
  ['one with rounded speed', { from: 50, to: 150, off: 0.01 }, true],
  ['one without gear records', { gears: false }, true],
  ['the end of it and more', { from: 100, to: 250 }, false],
  ['a longer one', { to: 300 }, false],
  ['too short a stretch to tell', { to: 30 }, false],
  ['another ride at the time', { from: 50, to: 150, off: 0.3 }, false],
  ['a day later', { startMs: START_MS + 86_400_000 }, false],
])('%s', (_, part, expected) => {
  expect(isPartOfRide(made(part), made())).toBe(expected);
});

test('one with gear records is no part of one without, and rides without a clock are not told apart', () => {
  expect(isPartOfRide(made({ from: 50, to: 150 }), made({ gears: false }))).toBe(false);
  expect(isPartOfRide(made({ startMs: 0 }), made({ startMs: 0 }))).toBe(false);
});

test('a sound ride is no part of a copy that lost a gear, though that holds more gear records', () => {
  const named: Record<number, number> = { 0: 11, 40: 13, 80: 15, 120: 17, 160: 19 };
  const ride = (rear: Record<number, number>): RideLog => {
    const rows = Array.from({ length: 200 }, (_, second) => {
      const time = new Date(START_MS + 1000 * second).toISOString();
      return `${time},${5 + (second % 7) / 10},${80 + (second % 5)},${rear[second] ?? ''}\n`;
    });
    return readRideLog('made', new TextEncoder().encode(`time,speed_mps,cadence_rpm,rear_teeth\n${rows.join('')}`));
  };
  const sound = ride(named);
  const damaged = ride({ ...named, 40: 999, 90: 999, 95: 15, 130: 999, 135: 17, 170: 999, 175: 19 });
  expect(damaged.gearRecords.timeS.length).toBeGreaterThan(sound.gearRecords.timeS.length);
  expect(isPartOfRide(sound, damaged)).toBe(false);
  expect(isPartOfRide(damaged, sound)).toBe(true);
});

/** A ride of 40 min by a recorder of its own: its cadence, its clock, its gear records, a few of them lost. */
function recorded({ clockS = 0, seed = 1, lost = 0, dated = true, from = 0 } = {}): RideLog {
  const shifts = seededRandom(seed, 'shifts');
  const sensor = seededRandom(seed + clockS, 'sensor');
  let [atS, cog] = [0, 5];
  const rear: Record<number, number> = { 0: 15 };
  while (atS < 2400) {
    atS += 4 + shifts.integer(40);
    cog = Math.max(0, Math.min(9, cog + (shifts.chance(0.5) ? 1 : -1)));
    rear[atS] = 11 + cog;
  }
  const rows = Array.from({ length: 2400 - from }, (_, i) => {
    const second = from + i;
    const time = dated ? new Date(START_MS + 1000 * (second + clockS)).toISOString() : i;
    const teeth = sensor.chance(lost) ? '' : (rear[second] ?? '');
    return `${time},${(5 + sensor.normal() / 10).toFixed(2)},${Math.round(80 + sensor.normal())},${teeth}\n`;
  });
  const head = `${dated ? 'time' : 'time_s'},speed_mps,cadence_rpm,rear_teeth\n`;
  return readRideLog('made', new TextEncoder().encode(`${head}${rows.join('')}`));
}

test.each<[string, Parameters<typeof recorded>[0], boolean]>([
  ['whose clock is 40 s off', { clockS: 40 }, true],
  ['whose clock is of another time zone', { clockS: -7200 }, true],
  ['that lost a gear record now and then', { clockS: 3, lost: 0.03 }, true],
  ['that was begun later', { clockS: 3, from: 600 }, true],
  ['without a clock', { dated: false, clockS: 1 }, true],
  ['of another ride at the time', { seed: 2 }, false],
  ['of the same time a day later', { clockS: 86_400 }, false],
])('a second recorder %s', (_, other, expected) => {
  expect(isPartOfRide(recorded(other), recorded())).toBe(expected);
});

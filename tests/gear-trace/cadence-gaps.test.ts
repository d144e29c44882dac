import { expect, it } from 'vitest';
import { cadenceGaps, cadenceGapsWarning } from '../../src/gear-trace/disagreement/cadence-gaps.ts';
import { madeLog } from './made-ride.ts';

/** Twenty minutes, the values of each minute given. */
const ridden = (of: (minute: number) => { speed?: number; cadence?: number; power?: number }) => {
  const minutes = Array.from({ length: 1200 }, (_, second) => of(Math.floor(second / 60)));
  return madeLog({
    speedMps: minutes.map(({ speed = 6 }) => speed),
    cadenceRpm: minutes.map(({ cadence = 80 }) => cadence),
    powerW: minutes.map(({ power = 180 }) => power),
  });
};
const within = (minute: number): boolean => minute >= 5 && minute < 12;

it.each([
  ['no cadence', { cadence: Number.NaN }],
  ['none, and no power either', { cadence: Number.NaN, power: Number.NaN }],
  ['a cadence of 0 beside the power of legs that turn', { cadence: 0 }],
])('finds %s over minutes, and says when', (_, gone) => {
  const log = ridden((minute) => (within(minute) ? gone : {}));
  expect(cadenceGaps(log)).toEqual([{ fromS: 300, toS: 719 }]);
  expect(cadenceGapsWarning(log)?.message).toMatch(
    /^No cadence was recorded from 5:00 to 11:59 \(time since the start\)/,
  );
});

it.each([
  ['a descent', { cadence: 0, power: 0 }],
  ['a rest', { cadence: Number.NaN, speed: 0, power: 0 }],
])('takes %s for none', (_, rest) => {
  expect(cadenceGaps(ridden((minute) => (within(minute) ? rest : {})))).toEqual([]);
});

it('lets a stop lie within a gap, and passes over short ones and rides without any cadence', () => {
  const stop = ridden((minute) => (within(minute) ? { cadence: Number.NaN, speed: minute === 7 ? 0 : 6 } : {}));
  expect(cadenceGaps(stop)).toEqual([{ fromS: 300, toS: 719 }]);
  expect(cadenceGaps(ridden((minute) => (minute === 5 ? { cadence: Number.NaN } : {})))).toEqual([]);
  expect(cadenceGapsWarning(ridden(() => ({ cadence: Number.NaN })))).toBeNull();
});

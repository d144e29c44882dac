import { expect, it } from 'vitest';
import type { CommandedShift } from '../../src/shifts/commands/commanded-shifts.ts';
import { loadDuring } from '../../src/shifts/outcomes/load-during.ts';
import { revolutionClock } from '../../src/shifts/turns/revolution-clock.ts';
import { madeLog } from '../gear-trace/made-ride.ts';

it('the load of a shift is that from the record nearest to the command on, for 3 s', () => {
  const seconds = Array.from({ length: 30 }, (_, second) => second);
  // 60 rpm: torque is power over 2 pi
  const log = madeLog({
    speedMps: seconds.map(() => 6),
    cadenceRpm: seconds.map((second) => (second === 10 ? 64 : 60)),
    powerW: seconds.map((second) => (second > 10 && second < 14 ? 2 * Math.PI * 30 : 0)),
  });
  const during = (timeS: number) => loadDuring(log, { timeS } as CommandedShift, revolutionClock(log));
  // 10 to 13 s, and 11 to 13 s
  expect(during(10.4).torqueNm).toBeCloseTo((3 * 30) / 4, 6);
  expect(during(10.4).cadenceRpm).toBe(61);
  expect(during(10.6).torqueNm).toBeCloseTo(30, 6);
  expect(during(10.6).cadenceRpm).toBe(60);
});

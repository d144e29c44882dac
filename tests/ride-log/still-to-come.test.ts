import { expect, it } from 'vitest';
import { isStillToCome, rideToComeCode, warnOfRideToCome } from '../../src/ride-log/still-to-come.ts';
import { MadeRide, madeBike } from '../gear-trace/made-ride.ts';

const now = Date.parse('2026-06-01T12:00:00Z');
const HOUR_MS = 3_600_000;

it('a time is still to come when no clock on earth can show it', () => {
  expect([-1, 0, 24, 25].map((hours) => isStillToCome(now + hours * HOUR_MS, now))).toEqual([
    false,
    false,
    false,
    true,
  ]);
});

it('a ride of such a day says so beside what else is said of it; any other is left as it is', () => {
  const ride = new MadeRide(madeBike).wander(2);
  const said = { code: 'repeated-time', message: '' };
  const at = (startMs: number) => ({ ...ride.log({ file: 'ride.csv', format: 'csv', startMs }), warnings: [said] });
  const later = warnOfRideToCome(at(Date.parse('2031-04-02T08:00:00Z')), now);
  expect(later.warnings.map(({ code }) => code)).toEqual(['repeated-time', rideToComeCode]);
  expect(later.warnings[1].message).toContain('2031-04-02');
  expect(warnOfRideToCome(at(now), now).warnings).toEqual([said]);
});

import { describe, expect, it } from 'vitest';
import { crankTorque } from '../../src/shifts/crank-torque.ts';
import { madeLog } from '../gear-trace/made-ride.ts';

describe('crankTorque', () => {
  const log = madeLog({
    speedMps: Array(6).fill(5),
    cadenceRpm: [60, 60, 90, 20, 60, Number.NaN],
    powerW: [100, 200, 300, 400, Number.NaN, 100],
  });

  it('is power over angular speed: 200 W at 60 rpm are 31.83 Nm', () => {
    expect(crankTorque(log, 1, 2)).toBeCloseTo(31.83, 2);
    expect(crankTorque(log, 2, 3)).toBeCloseTo(31.83, 2);
  });

  it('averages over the records that have power and turning cranks', () => {
    expect(crankTorque(log, 0, 6)).toBeCloseTo((15.915 + 31.831 + 31.831) / 3, 2);
    expect(crankTorque(log, -9, 1)).toBeCloseTo(15.915, 2);
  });

  it('is NaN without any', () => {
    expect(crankTorque(log, 3, 6)).toBeNaN();
    expect(crankTorque(log, 4, 4)).toBeNaN();
  });
});

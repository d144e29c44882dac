import { describe, expect, it } from 'vitest';
import { CrankAndWheel, type StepForces } from '../../../src/simulate/mechanics/crank-and-wheel.ts';

const DT_S = 1 / 32;
const forces: StepForces = {
  pedal: 'drive',
  torqueNm: 25,
  softPart: 0.9,
  spinRps: 1.95,
  gear: 2,
  holds: true,
  grade: 0,
  rollingCoefficient: 0.005,
  brakeMps2: 0,
  walkMps: Number.NaN,
  handTurned: false,
};

function ride(body: CrankAndWheel, seconds: number, changes: Partial<StepForces> = {}): number {
  let workJ = 0;
  for (let t = 0; t < seconds; t += DT_S) {
    const before = body.crankTurns;
    body.step(DT_S, { ...forces, ...changes });
    workJ += body.torqueNowNm * 2 * Math.PI * (body.crankTurns - before);
  }
  return workJ;
}

describe('CrankAndWheel', () => {
  it('reaches the speed at which power equals what air and rolling take', () => {
    const body = new CrankAndWheel(85, 0.36, 2.29);
    ride(body, 300);
    const powerW = ride(body, 60) / 60;
    const v = body.speedMps;
    const taken = 0.5 * 1.19 * 0.36 * v ** 3 + 85 * 9.81 * 0.005 * v;
    expect(powerW).toBeCloseTo(taken, -1);
    expect(Math.abs(powerW / taken - 1)).toBeLessThan(0.02);
  });

  it('locks crank and wheel while driving: development = rollout x gear', () => {
    const body = new CrankAndWheel(85, 0.36, 2.29);
    ride(body, 120);
    const [turns, metres] = [body.crankTurns, body.distanceM];
    ride(body, 20);
    expect((body.distanceM - metres) / (body.crankTurns - turns)).toBeCloseTo(2.29 * 2, 2);
  });

  it('freewheels: coasting and soft pedalling put the wheel ahead of the crank, never behind', () => {
    const body = new CrankAndWheel(85, 0.36, 2.29);
    ride(body, 120);
    for (const pedal of ['soft', 'coast', 'soft', 'drive'] as const)
      for (let i = 0; i < 100; i++) {
        body.step(DT_S, { ...forces, pedal });
        expect(body.crankRps).toBeLessThanOrEqual(body.drivenRps(2) + 0.02);
        if (pedal !== 'drive') expect(body.engaged).toBe(false);
      }
  });

  it('lets the legs run away and the bike slow down when the chain does not hold', () => {
    const body = new CrankAndWheel(85, 0.36, 2.29);
    ride(body, 60, { grade: 0.03 });
    const [speed, cadence] = [body.speedMps, body.crankRps];
    ride(body, 1, { holds: false, grade: 0.03 });
    expect(body.crankRps).toBeGreaterThan(1.3 * cadence);
    expect(body.speedMps).toBeLessThan(speed);
  });

  it('never rolls backward, and walks at walking pace', () => {
    const body = new CrankAndWheel(85, 0.36, 2.29);
    ride(body, 10, { pedal: 'coast', grade: 0.2 });
    expect(body.speedMps).toBe(0);
    ride(body, 10, { walkMps: 1.2 });
    expect(body.speedMps).toBeCloseTo(1.2, 2);
    expect(body.crankRps).toBe(0);
  });
});

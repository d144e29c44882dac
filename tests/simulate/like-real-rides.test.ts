import { median, quantile } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { type SimulatedRide, simulateRides } from '../../src/simulate/simulate-rides.ts';
import { settledSeconds } from '../accuracy/matching-rules.ts';
import { haveRealRides, realRide } from '../ride-log/real-rides.ts';

const healthy = (speedSource: 'wheel' | 'satellite'): SimulatedRide[] =>
  [1, 2, 3, 4, 5, 6].flatMap((seed) =>
    simulateRides({ cause: 'no-fault', seed, speedSource, durationS: 5400, formats: [] }),
  );

/** Whole seconds between gear records that change the cog. */
function gapsS({ gearRecords }: RideLog): number[] {
  const timesS: number[] = [];
  gearRecords.rearPosition.forEach((position, i) => {
    if (i > 0 && position !== gearRecords.rearPosition[i - 1]) timesS.push(Math.floor(gearRecords.timeS[i]));
  });
  return timesS.slice(1).map((timeS, i) => timeS - timesS[i]);
}

/** Gaps between shifts: presses within a second are one. */
const betweenShifts = (log: RideLog): number[] => gapsS(log).filter((gap) => gap > 1);

/** Robust spread (1.4826 times the median absolute deviation) of the log ratio about the true gear, in settled pedalling at a steady cadence. */
function ratioSpread(rides: readonly SimulatedRide[]): number {
  const errors = rides.flatMap(({ log, truth }) => {
    const settled = settledSeconds(truth);
    const found: number[] = [];
    log.timeS.forEach((timeS, i) => {
      const cog = truth.perSecond.cogTeeth[timeS];
      if (!settled[timeS] || i < 3 || cog === null || !(log.cadenceRpm[i] > 60 && log.speedMps[i] > 3)) return;
      if (Math.abs(log.cadenceRpm[i] - log.cadenceRpm[i - 3]) > 1) return;
      const ratio = (log.speedMps[i] * 60) / log.cadenceRpm[i];
      found.push(Math.log((ratio * cog) / truth.perSecond.ringTeeth[timeS]));
    });
    const middle = median(found) ?? 0;
    return found.map((value) => Math.abs(value - middle));
  });
  return 1.4826 * (median(errors) ?? 0);
}

/** Share of the stops, cadence falling below 30, before which the last reading stood for three records or more; NaN with few stops. */
function repeatedAtStops({ timeS, cadenceRpm }: RideLog): number {
  let stops = 0;
  let repeated = 0;
  for (let i = 3; i < timeS.length; i++) {
    if (!(cadenceRpm[i] < 30) || !(cadenceRpm[i - 1] >= 30) || timeS[i] - timeS[i - 3] > 3.5) continue;
    stops++;
    if (cadenceRpm[i - 1] === cadenceRpm[i - 2] && cadenceRpm[i - 2] === cadenceRpm[i - 3]) repeated++;
  }
  return stops < 20 ? Number.NaN : repeated / stops;
}

/** What the simulated rides are held to. Source: what was seen in over thirty real rides, shared/real-rides/README.md. */
describe('simulated rides are like real ones', () => {
  const wheel = healthy('wheel');
  const satellite = healthy('satellite');

  it('25 to 45 % of the gaps between gear records are 2 s or less, a third on real rides', () => {
    const gaps = [...wheel, ...satellite].flatMap(({ log }) => gapsS(log));
    const share = gaps.filter((gap) => gap <= 2).length / gaps.length;
    expect(share).toBeGreaterThan(0.25);
    expect(share).toBeLessThan(0.45);
  });

  it('the ratio scatters by 0.5 to 0.9 % with a wheel sensor and by 1.4 to 2.1 % with satellite speed, by 0.5 to 0.8 and 1.6 to 1.8 on real rides', () => {
    expect(ratioSpread(wheel)).toBeGreaterThan(0.005);
    expect(ratioSpread(wheel)).toBeLessThan(0.009);
    expect(ratioSpread(satellite)).toBeGreaterThan(0.014);
    expect(ratioSpread(satellite)).toBeLessThan(0.021);
  });

  it.skipIf(!haveRealRides)(
    'the quartiles of the gaps between shifts lie no more than 30 % outside those of three real rides',
    () => {
      const real = ['gears-cadence-power-20h.fit', 'gears-cadence-wheel-sensor.fit', 'gears-no-cadence-a.fit'].map(
        (name) => betweenShifts(readRideLog(name, realRide(name))),
      );
      const simulated = [...wheel, ...satellite].flatMap(({ log }) => betweenShifts(log));
      for (const share of [0.25, 0.5, 0.75]) {
        const seen = real.map((gaps) => quantile(gaps, share) ?? Number.NaN);
        const made = quantile(simulated, share) ?? Number.NaN;
        expect(made, `${share} of the gaps, real ${seen}`).toBeGreaterThan(0.7 * Math.min(...seen));
        expect(made, `${share} of the gaps, real ${seen}`).toBeLessThan(1.3 * Math.max(...seen));
      }
    },
  );

  it.skipIf(!haveRealRides)(
    '25 to 90 % of the crank sensors repeat their last reading at most stops, and at least one lets it sink, as on real rides',
    () => {
      const shares = (logs: readonly RideLog[]): number[] =>
        logs.map(repeatedAtStops).filter((share) => !Number.isNaN(share));
      const real = shares(
        ['gears-cadence-power-20h.fit', 'gears-cadence-wheel-sensor.fit', 'plain-b.fit', 'plain-power-a.fit'].map(
          (name) => readRideLog(name, realRide(name)),
        ),
      );
      const made = shares([...wheel, ...satellite].map(({ log }) => log));
      for (const rides of [real, made]) {
        const repeating = rides.filter((share) => share > 0.6).length / rides.length;
        expect(repeating).toBeGreaterThan(0.25);
        expect(repeating).toBeLessThan(0.9);
        expect(Math.min(...rides)).toBeLessThan(0.2);
      }
    },
  );
});

import { beforeAll, describe, expect, it } from 'vitest';
import { type AnalysedRide, analyseRide } from '../../src/analyse.ts';
import { rideReport } from '../../src/report/ride-report.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { MadeRide, madeBike } from '../gear-trace/made-ride.ts';

describe('the turns that a shift was judged by', () => {
  const ride = new MadeRide().pedal(30).wander(30).pedal(20);
  const burstAt = ride.nowS;
  ride
    .command(ride.cog + 1)
    .pedal(1)
    .command(ride.cog + 2)
    .pedal(1)
    .move(ride.cog + 2)
    .pedal(20);
  const coastedAt = ride.nowS;
  ride
    .command(ride.cog - 1)
    .coast(8)
    .pedal(1)
    .move(ride.cog - 1)
    .pedal(30);
  let judged: AnalysedRide;
  let report: RideReport;
  beforeAll(() => {
    judged = analyseRide(ride.log(), madeBike);
    report = rideReport(judged, madeBike);
  });
  const shiftAt = (timeS: number) => report.shifts[judged.events.shifts.findIndex((shift) => shift.timeS === timeS)];

  /** Turns between two moments, counted in small steps: the cadence runs straight from record to record, or rather its mean does. */
  function turned(fromS: number, toS: number): number {
    const { cadenceRpm } = judged.trace.samples;
    let revs = 0;
    for (let s = fromS; s < toS; s += 0.001) {
      const i = Math.floor(s);
      revs += ((cadenceRpm[i] + cadenceRpm[i + 1]) / 2 / 60) * 0.001;
    }
    return revs;
  }

  it('are counted from the last command of a burst, the lag of the sensors after it', () => {
    const { turns, crankRevs } = shiftAt(burstAt);
    const fromS = burstAt + 1 + judged.sensorLagS;
    expect(turns.fromS).toBeCloseTo(fromS - burstAt, 1);
    expect(turned(fromS, burstAt + (turns.cleanUntilS as number))).toBeCloseTo(1.5, 1);
    expect(turned(fromS, burstAt + (turns.lateUntilS as number))).toBeCloseTo(5, 1);
    expect(turned(fromS, burstAt + (turns.doneS as number))).toBeCloseTo(crankRevs as number, 1);
  });

  it('wait while the cranks stand', () => {
    const { turns } = shiftAt(coastedAt);
    const fromS = coastedAt + judged.sensorLagS;
    expect(turns.cleanUntilS).toBeGreaterThan(8);
    expect(turned(fromS, coastedAt + (turns.cleanUntilS as number))).toBeCloseTo(1.5, 1);
  });

  it('are not known in a ride whose sensors do not show the drive', () => {
    const log = ride.log();
    const blind = { ...log, cadenceRpm: log.cadenceRpm.map(() => Number.NaN) };
    const { shifts } = rideReport(analyseRide(blind, madeBike), madeBike);
    for (const { turns } of shifts)
      expect(turns).toEqual({ fromS: null, cleanUntilS: null, lateUntilS: null, doneS: null });
  });
});

import { beforeAll, describe, expect, it } from 'vitest';
import { type AnalysedRide, analyseRide, chooseBike } from '../../src/analyse.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { partOfRide } from '../gear-trace/part-of-ride.ts';
import { haveRealRides, realRide } from '../ride-log/real-rides.ts';

/** FIT times count from 1989-12-31. */
const FIT_EPOCH_S = 631_065_600;

describe.skipIf(!haveRealRides)('four hours of a healthy real ride with gear records', () => {
  let judged: AnalysedRide;
  let sagS: number;
  beforeAll(() => {
    const whole = readRideLog('gears-cadence-power-20h.fit', realRide('gears-cadence-power-20h.fit'));
    sagS = 1_116_452_334 + FIT_EPOCH_S - whole.startMs / 1000;
    const part = partOfRide(whole, sagS - 7200, sagS + 7200);
    judged = analyseRide(part, chooseBike([part], null).bike);
  });

  it('shows the speed sagging to half for 3 s while power stays, and reports neither a drop nor a skip there', () => {
    const { log, events } = judged;
    const at = log.timeS.indexOf(sagS);
    const sagged = Math.min(...log.speedMps.subarray(at, at + 4));
    expect(sagged).toBeLessThan(0.7 * log.speedMps[at - 3]);
    expect(Math.min(...log.powerW.subarray(at, at + 4))).toBeGreaterThan(200);
    const near = ({ timeS }: { timeS: number }): boolean => Math.abs(timeS - sagS) < 30;
    expect([...events.chainDrops, ...events.skips, ...events.ghostShifts].filter(near)).toEqual([]);
  });

  it('reports at most 2 % trouble, no chain drop and at most one ghost shift', () => {
    const { shifts, chainDrops, ghostShifts } = judged.events;
    const of = shifts.filter(({ outcome }) => outcome !== 'unjudged');
    expect(of.length).toBeGreaterThan(300);
    expect(of.filter(({ outcome }) => outcome !== 'clean').length / of.length).toBeLessThanOrEqual(0.02);
    expect(chainDrops).toEqual([]);
    expect(ghostShifts.length).toBeLessThanOrEqual(1);
  });

  it('finds its ratio 0 to 3 s behind its gear records', () => {
    expect(judged.sensorLagS).toBeGreaterThanOrEqual(0);
    expect(judged.sensorLagS).toBeLessThanOrEqual(3);
  });
});

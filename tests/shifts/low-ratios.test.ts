import { expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { lowRatios } from '../../src/shifts/drops/low-ratios.ts';
import { madeBike } from '../gear-trace/made-ride.ts';
import { at, warmedUp } from './warmed-up.ts';

it('a halt long after legs that spun is no answer to them', () => {
  const signsWhereItRolls = (rollS: number): string[] => {
    const ride = at(1).pedal(30).command(0).pedal(1).spinInVain(4, 115).coast(rollS).stand(60).move(0).pedal(30);
    const log = ride.log();
    return lowRatios(log, traceGears(log, madeBike)).flatMap(({ signs }) => signs.map(({ sign }) => sign));
  };
  expect(signsWhereItRolls(10)).toContain('halt-lasts');
  expect(signsWhereItRolls(36)).toContain('no-halt');
});

it('no chain is lost where a bike stops at a crawl on the largest cog and the last turn of the legs is shown late', () => {
  const lowBike = { ...madeBike, chainrings: [22] };
  const climb = at(8, warmedUp(lowBike)).pedal(30, { cadenceRpm: 45 });
  const stopAt = climb.nowS;
  const log = climb.stand(60).pedal(60).log();
  const from = log.timeS.findIndex((timeS) => timeS >= stopAt);
  const crawling = log.speedMps[from - 2];
  expect(crawling).toBeLessThan(1.2);
  const dropsAt = (last: number): number => {
    const edited = { ...log, speedMps: log.speedMps.slice(), cadenceRpm: log.cadenceRpm.slice() };
    [0.85, 0.6, 0.35].forEach((share, k) => {
      edited.speedMps[from + k] = share * crawling;
    });
    edited.cadenceRpm[from] = last;
    return analyseRide(edited, lowBike).events.chainDrops.length;
  };
  expect([52, 54, 56, 58, 60].map(dropsAt)).toEqual([0, 0, 0, 0, 0]);
  expect(dropsAt(88)).toBe(1);
});

it('power that was hardly there before the legs spun is not gone, and tells neither way', () => {
  const powerSigns = (beforeW: number, spinningW: number): string[] => {
    const ride = at(1).pedal(30, { powerW: beforeW }).command(0).pedal(1, { powerW: beforeW });
    const log = ride.spinInVain(4, 115, spinningW).coast(8).stand(60).move(0).pedal(30).log();
    return lowRatios(log, traceGears(log, madeBike))
      .flatMap(({ signs }) => signs.map(({ sign }) => sign))
      .filter((sign) => sign.startsWith('power-'));
  };
  expect(powerSigns(180, 8)).toEqual(['power-gone']);
  expect(powerSigns(12, 8)).toEqual([]);
  expect(powerSigns(12, 2)).toEqual(['power-gone']);
});

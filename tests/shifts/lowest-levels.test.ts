import { describe, expect, it } from 'vitest';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { lowestLevels } from '../../src/shifts/drops/lowest-levels.ts';
import { madeBike, madeLog } from '../gear-trace/made-ride.ts';
import { at } from './warmed-up.ts';

describe('lowestLevels', () => {
  it('follows the easiest gear commanded or traced in the last seconds', () => {
    const ride = at(4).pedal(20);
    const shiftedAt = ride.nowS;
    const log = ride.shift(6).pedal(30).shift(5).pedal(30).log();
    const trace = traceGears(log, madeBike);
    const levels = lowestLevels(log, trace);
    const nearest = (i: number): number => {
      const off = (trace.model?.logDevelopment ?? new Float64Array()).map((y) => Math.abs(y - levels[i]));
      return off.indexOf(Math.min(...off));
    };
    expect([shiftedAt - 5, shiftedAt + 2, shiftedAt + 25, shiftedAt + 55].map(nearest)).toEqual([4, 6, 6, 5]);
  });

  it('leaves the gears before out of question once the ratio shows the chain on an end cog', () => {
    const ride = at(1).pedal(20);
    const shiftedAt = ride.nowS;
    const log = ride.shift(0).pedal(30).log();
    const trace = traceGears(log, madeBike);
    const levels = lowestLevels(log, trace);
    const [smallest, next] = trace.model?.logDevelopment ?? [];
    const level = (timeS: number): number => levels[log.timeS.findIndex((other) => other >= timeS)];
    expect(level(shiftedAt + 1)).toBeCloseTo(next, 10);
    expect(level(shiftedAt + 7)).toBeCloseTo(smallest, 10);
  });

  it('is the lowest gear of the bike without records, and -Infinity without a model', () => {
    const log = at(4).pedal(60).log();
    const none = { ...log, gearRecords: { ...log.gearRecords, timeS: new Float64Array() } };
    const trace = traceGears(none, madeBike);
    expect(new Set(lowestLevels(none, trace))).toEqual(new Set([Math.min(...(trace.model?.logDevelopment ?? []))]));
    const bare = madeLog({ speedMps: [5], cadenceRpm: [80] });
    expect([...lowestLevels(bare, traceGears(bare, madeBike))]).toEqual([Number.NEGATIVE_INFINITY]);
  });
});

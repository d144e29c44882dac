import { describe, expect, it } from 'vitest';
import type { RideTrace } from '../../src/gear-trace/gear-trace.ts';
import { pedalledSeconds } from '../../src/gear-trace/samples/pedalled-seconds.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { lowestLevels } from '../../src/shifts/drops/lowest-levels.ts';
import { madeBike, madeDoubleBike, madeLog } from '../gear-trace/made-ride.ts';
import { at, warmedUp } from './warmed-up.ts';

/** The lowest gear in question of each record, all of its look back read anew. */
function plainly(log: RideLog, { model, commands, samples, cog, ring, ...trace }: RideTrace): number[] {
  if (!model) return [];
  const ends = [0, model.cogs - 1];
  const arrives = (i: number): boolean => {
    const at = commands.cog[commands.latest[i]];
    const level = model.logDevelopment[ring[i] * model.cogs + at];
    return ends.includes(at) && ring[i] >= 0 && Math.abs(trace.logDevelopment[i] - level) < 1.5 * trace.deviation[i];
  };
  const unknown = (i: number): boolean =>
    ends.includes(commands.cog[commands.latest[i]]) && Number.isNaN(trace.logDevelopment[i]);
  return Array.from(log.timeS, (timeS, i) => {
    let first = i;
    let pedalledS = 0;
    while (first > 0 && (timeS - log.timeS[first - 1] <= 10 || pedalledS + pedalledSeconds(samples, first) <= 5))
      pedalledS += pedalledSeconds(samples, first--);
    for (let k = first + 1; k <= i; k++) {
      let before = k - 1;
      while (before > 0 && unknown(before)) before--;
      const steady = commands.latest[before] === commands.latest[k] && commands.latest[k] >= 0;
      if (steady && before > 0 && arrives(k) && arrives(before)) first = k;
    }
    const asked = [...commands.timeS.keys()].filter(
      (c) => c >= commands.latest[first] && commands.timeS[c] <= timeS + 1 && c <= commands.latest[i] + 1,
    );
    const ridden = [...log.timeS.keys()]
      .slice(first, i + 1)
      .filter((k) => timeS - log.timeS[k] >= 4 && (k === first || !(log.powerW[k] < 30)));
    const largest = Math.max(-1, ...asked.map((c) => commands.cog[c]), ...ridden.map((k) => cog[k]));
    const rings = [...asked.map((c) => commands.ring[c]), ...ridden.map((k) => ring[k]).filter((r) => r >= 0)];
    if (largest < 0) return Math.min(...model.logDevelopment);
    const on = rings.length === 0 || rings.includes(-1) ? [...Array(model.rings).keys()] : rings;
    return Math.min(...on.map((r) => model.logDevelopment[r * model.cogs + largest]));
  });
}

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

  it('asks nothing of a gear that was named while the legs did nothing by the power meter', () => {
    const ride = at(1).pedal(12).command(0);
    const askedS = ride.nowS;
    const full = ride.spinInVain(9, 79).coast(3).brake(8, 0).stand(60).pedal(60).log();
    const lowest = (log: RideLog): number => {
      const trace = traceGears(log, ride.bike);
      trace.cog.fill(3, askedS + 2, askedS + 9);
      const level = lowestLevels(log, trace)[askedS + 8];
      return [...(trace.model?.logDevelopment ?? [])].findIndex((one) => Math.abs(one - level) < 1e-9);
    };
    expect(lowest(full)).toBe(1);
    expect(lowest({ ...full, powerW: full.powerW.map(() => Number.NaN) })).toBe(3);
  });

  it('takes every gear since the look back began, as a plain search does, over halts and changes of ring too', () => {
    const ride = at(6, warmedUp(madeDoubleBike)).stand(200).pedal(3).shift(7).coast(30).command(2).stand(90).move(2);
    ride.pedal(30).command(3, 0).pedal(1).move(3, 0).pedal(30).coast(60).command(5).pedal(2).move(5).pedal(20);
    ride.command(5, 1).pedal(1).move(5, 1).pedal(30);
    const log = at(0, ride).stand(60).pedal(20).log();
    const trace = traceGears(log, madeDoubleBike);
    expect([...lowestLevels(log, trace)]).toEqual(plainly(log, trace));
  });

  it('reads each record a few times, however long the bike stands', () => {
    const log = at(4).pedal(20).stand(4000).pedal(30).stand(4000).pedal(30).log();
    const trace = traceGears(log, madeBike);
    let reads = 0;
    const cog = new Proxy(trace.cog, {
      get: (column, key) => {
        reads++;
        return Reflect.get(column, key);
      },
    });
    lowestLevels(log, { ...trace, cog });
    expect(reads).toBeLessThan(20 * log.timeS.length);
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

import { describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { skips } from '../../src/shifts/skips/skips.ts';
import { madeBike, madeLog } from '../gear-trace/made-ride.ts';
import { at } from './warmed-up.ts';

describe('skips', () => {
  /** A ride in which the cadence runs ahead by a share for some records of settled pedalling. */
  const skipping = (ahead: number, records: number) => {
    const ride = at(3).pedal(30);
    const from = ride.nowS;
    const log = ride.pedal(30).log();
    const cadenceRpm = log.cadenceRpm.map((rpm, i) =>
      i >= from && i < from + records ? Math.round(rpm * (1 + ahead)) : rpm,
    );
    return { log: { ...log, cadenceRpm }, from };
  };

  /** How far the cadence runs ahead where the chain of cog 3 lies on another. */
  const to = (cog: number): number => madeBike.cassette[cog] / madeBike.cassette[3] - 1;

  it('are found where the cranks run ahead for under 2 s and the cog stays', () => {
    const { log, from } = skipping(0.3, 1);
    const { events } = analyseRide(log, madeBike);
    expect(events.skips.length).toBe(1);
    expect(events.skips[0].cog).toBe(3);
    expect(events.skips[0].leap).toBeCloseTo(0.3, 1);
    expect(Math.abs(events.skips[0].timeS - from)).toBeLessThan(2);
    expect(events.skips[0].confidence).toBeGreaterThan(0.3);
    expect(events.chainDrops).toEqual([]);
  });

  it.each([
    [1, 1],
    [0.7, 1],
    [0.3, 0],
    [0.05, 0],
    [0, 0],
  ])('come under load only, where power is known: %f of the power makes %i', (share, count) => {
    const { log, from } = skipping(0.3, 1);
    const powerW = log.powerW.map((watts, i) => (Math.abs(i - from) < 6 ? share * watts : watts));
    expect(analyseRide({ ...log, powerW }, madeBike).events.skips.length).toBe(count);
    const bare = { ...log, powerW, gearRecords: madeLog({ speedMps: [5], cadenceRpm: [80] }).gearRecords };
    expect(analyseRide(bare, madeBike).events.skips.length).toBeLessThanOrEqual(count);
    const unknown = log.powerW.map(() => Number.NaN);
    expect(analyseRide({ ...log, powerW: unknown }, madeBike).events.skips.length).toBe(1);
  });

  it('are none between records that lie seconds apart: none of them shows that it was short', () => {
    const { log, from } = skipping(0.3, 1);
    const kept = (i: number): boolean => i < 60 || (i - from) % 4 === 0;
    const thinned = (column: Float64Array): Float64Array => column.filter((_, i) => kept(i));
    const [timeS, speedMps, cadenceRpm, powerW] = [log.timeS, log.speedMps, log.cadenceRpm, log.powerW].map(thinned);
    expect(cadenceRpm).toContain(log.cadenceRpm[from]);
    const sparse = { ...log, timeS, speedMps, cadenceRpm, powerW, distanceM: thinned(log.distanceM) };
    expect(analyseRide(sparse, madeBike).events.skips).toEqual([]);
  });

  it('are none for longer spells, or for freewheeling, which lags behind', () => {
    for (const records of [4, 6]) expect(analyseRide(skipping(0.09, records).log, madeBike).events.skips).toEqual([]);
    expect(analyseRide(skipping(0.3, 1).log, madeBike).events.skips.length).toBe(1);
    expect(analyseRide(skipping(-0.15, 1).log, madeBike).events.skips).toEqual([]);
  });

  it('are none where a hop to the next larger cog and back would show the same, under less than the usual load', () => {
    const { log, from } = skipping(0.12, 1);
    const powerW = log.powerW.map((watts, i) => (Math.abs(i - from) < 4 ? 0.6 * watts : watts));
    expect(analyseRide({ ...log, powerW }, madeBike).events.skips).toEqual([]);
    const hard = log.powerW.map((watts, i) => (Math.abs(i - from) < 4 ? 1.5 * watts : watts));
    expect(analyseRide({ ...log, powerW: hard }, madeBike).events.skips.length).toBe(1);
  });

  describe('that a hop to the next larger cog and back could have made', () => {
    const everyS = 40;
    /** Dips of these depths (share that the cadence runs ahead), one every 40 s of settled pedalling. */
    const dips = (...ahead: readonly number[]) => {
      const ride = at(3).pedal(30);
      const from = ride.nowS;
      const log = ride.pedal(everyS * (ahead.length + 1)).log();
      const cadenceRpm = log.cadenceRpm.map((rpm, i) => {
        const k = (i - from) / everyS;
        return Number.isInteger(k) && k >= 0 && k < ahead.length ? Math.round(rpm * (1 + ahead[k])) : rpm;
      });
      return { ...log, cadenceRpm, powerW: log.powerW.map(() => Number.NaN) };
    };
    /** A log with a speed that is noisy by so large a share. */
    const withNoise = (share: number, log: RideLog): RideLog => ({
      ...log,
      speedMps: log.speedMps.map((mps, i) => mps * (1 + share * Math.sin(2.7 * i * i))),
    });
    const noisy = (share: number, ...ahead: readonly number[]): number =>
      analyseRide(withNoise(share, dips(...ahead)), madeBike).events.skips.length;
    const found = (...ahead: readonly number[]): number => analyseRide(dips(...ahead), madeBike).events.skips.length;

    it('count in a ride with one that no hop explains', () => {
      const hop = to(4);
      expect(found(hop, hop, hop, hop, hop)).toBe(0);
      expect(found(hop, 0.3, hop)).toBe(3);
    });

    it('count where several are too shallow for the next cog', () => {
      expect(found(0.08, 0.08)).toBe(0);
      expect(found(0.08, 0.08, 0.08, 0.08)).toBe(4);
    });

    it('count though they hardly stand out of the noise where one is clear or several come together', () => {
      expect(noisy(0.012, 0.08)).toBe(0);
      expect(noisy(0.012, 0.08, 0.3)).toBe(2);
      expect(noisy(0.015, 0.09, 0.09)).toBe(0);
      expect(noisy(0.015, 0.09, 0.09, 0.09, 0.09)).toBe(4);
    });

    it.each([
      ['too shallow for the next cog', 0, 0.08],
      ['hardly clear of the noise', 0.012, 0.08],
      ['within the noise of most rides', 0.015, 0.07],
    ])('count where the power sags with one that is %s', (_, share, ahead) => {
      const log = withNoise(share, dips(ahead));
      const dipAt = at(3).pedal(30).nowS;
      // a soft push, so that none is a skip for its load alone
      const soft = (i: number): number => (Math.abs(i - dipAt) < 6 ? 150 : 200);
      const withPower = (left: number) => ({
        ...log,
        powerW: Float64Array.from(log.timeS, (_, i) => (i === dipAt ? left : 1) * soft(i)),
      });
      const found = (left: number): number => analyseRide(withPower(left), madeBike).events.skips.length;
      expect([found(1), found(0.8), found(0.4)]).toEqual([0, 0, 1]);
    });
  });

  it('are found where two records lie on a cog out of reach, and not where they lie on the next', () => {
    expect(analyseRide(skipping(to(5), 2).log, madeBike).events.skips.length).toBe(1);
    expect(analyseRide(skipping(to(4), 2).log, madeBike).events.skips).toEqual([]);
    // however hard the rider pushes: that the chain rests there shows a hop, which slipping teeth do not
    const hard = (records: number): number => {
      const { log, from } = skipping(to(4), records);
      const powerW = log.powerW.map((watts, i) => (Math.abs(i - from) < 4 ? 1.5 * watts : watts));
      return analyseRide({ ...log, powerW }, madeBike).events.skips.length;
    };
    expect([hard(1), hard(2)]).toEqual([1, 0]);
  });

  it('are found where a record passes the next larger cog and the other goes far beyond', () => {
    const { log, from } = skipping(to(4), 2);
    const cadenceRpm = log.cadenceRpm.map((rpm, i) => (i === from + 1 ? Math.round(rpm * 1.2) : rpm));
    expect(analyseRide({ ...log, cadenceRpm }, madeBike).events.skips.length).toBe(1);
  });

  describe('soon after a command', () => {
    /** Cog 3 to cog 4, and some seconds later a record in which the cadence runs ahead by a share of that on cog 4. */
    const afterShift = (ahead: number, { speed = 1, command = 4 } = {}) => {
      const ride = at(3).pedal(30).command(command).command(4).move(4).pedal(3);
      const from = ride.nowS;
      const log = ride.pedal(30).log();
      const cadenceRpm = log.cadenceRpm.map((rpm, i) => (i === from ? Math.round(rpm * (1 + ahead)) : rpm));
      const speedMps = log.speedMps.map((mps, i) => (i === from ? mps * speed : mps));
      const powerW = log.powerW.map((watts, i) => (Math.abs(i - from) < 4 ? 1.5 * watts : watts));
      return analyseRide({ ...log, cadenceRpm, speedMps, powerW }, madeBike).events.skips;
    };

    it('are found where the cranks run ahead of every cog that was asked for', () => {
      const found = afterShift(0.3);
      expect(found.map(({ cog }) => cog)).toEqual([4]);
      expect(afterShift(0.08)).toEqual([]);
    });

    it('are none where a hop to the next larger cog and back would show the same, however hard the push: a chain on its way hops too', () => {
      expect(afterShift(madeBike.cassette[5] / madeBike.cassette[4] - 1)).toEqual([]);
    });

    it('are none where the chain may be on its way back from a larger cog that was asked for too', () => {
      expect(afterShift(0.3, { command: 6 })).toEqual([]);
    });

    it('are found while the wheel slows for want of drive, since the legs leap as well', () => {
      expect(afterShift(0.25, { speed: 0.94 }).length).toBe(1);
      expect(afterShift(0.11, { speed: 0.94 })).toEqual([]);
    });
  });

  it('are none where the sensor counts the cranks twice', () => {
    expect(analyseRide(skipping(1, 1).log, madeBike).events.skips).toEqual([]);
  });

  it('are found without gear records where they are deep and short, and are no lost chain', () => {
    const { log } = skipping(0.3, 1);
    const bare = { ...log, gearRecords: madeLog({ speedMps: [5], cadenceRpm: [80] }).gearRecords };
    const stopping = { ...bare, speedMps: bare.speedMps.map((speed, i) => (i > bare.timeS.length - 12 ? 0 : speed)) };
    for (const ride of [bare, stopping]) {
      const { events } = analyseRide({ ...ride, powerW: ride.powerW.map(() => Number.NaN) }, madeBike);
      expect([events.skips.length, events.chainDrops.length]).toEqual([1, 0]);
    }
  });

  it('are none without a gear model', () => {
    const bare = madeLog({ speedMps: [5], cadenceRpm: [80] });
    expect(skips(bare, traceGears(bare, madeBike), 0)).toEqual([]);
  });
});

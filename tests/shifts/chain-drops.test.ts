import { median } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { type AnalysedRide, analyseRide } from '../../src/analyse.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { belowGears } from '../../src/shifts/drops/below-gears.ts';
import type { DropSign } from '../../src/shifts/drops/drop-candidate.ts';
import { dropSide } from '../../src/shifts/drops/drop-side.ts';
import { haltsAtEnd } from '../../src/shifts/drops/halts-at-end.ts';
import { type MadeRide, madeBike, madeDoubleBike, madeLog } from '../gear-trace/made-ride.ts';
import { someRecords } from '../gear-trace/some-records.ts';
import { at, warmedUp } from './warmed-up.ts';

const analysed = (ride: MadeRide): AnalysedRide => analyseRide(ride.log(), ride.bike);

describe('chain drops', () => {
  const drop = (ride: MadeRide): MadeRide => ride.spinInVain(4, 116).coast(5).brake(4, 0).stand(40).pedal(60);

  it.each([
    [8, 'past-largest'],
    [0, 'past-smallest'],
    [4, 'chainring'],
  ] as const)('with the derailleur at cog %i are %s', (cog, side) => {
    const ride = at(cog).pedal(12);
    const lostAt = ride.nowS;
    const { chainDrops } = analysed(drop(ride)).events;
    expect(chainDrops.length).toBe(1);
    expect(chainDrops[0]).toMatchObject({ side, afterShiftTo: null });
    expect(Math.abs(chainDrops[0].timeS - lostAt)).toBeLessThan(3);
    expect(chainDrops[0].confidence).toBeGreaterThan(0.5);
  });

  it.each([
    ['legs that leap as the power goes', [60, 75, 78], 0, 1],
    ['legs that turn as they did', [38, 38, 38], 0, 0],
    ['legs that press on', [60, 75, 78], 120, 0],
  ])('at a crawl too slow for a ratio are told by %s', (_, cadences, powerW, count) => {
    const ride = at(8, warmedUp({ ...madeBike, chainrings: [24] })).pedal(25, { cadenceRpm: 38, powerW: 130 });
    const from = ride.nowS;
    const log = ride.brake(3, 0).stand(60).pedal(40).log();
    const inTime = (column: Float64Array, values: readonly number[]) =>
      column.map((value, i) => values[i - from] ?? value);
    const made = {
      ...log,
      speedMps: inTime(log.speedMps, [0.8, 0.45, 0.28]),
      cadenceRpm: inTime(log.cadenceRpm, cadences),
      powerW: inTime(log.powerW, [powerW, powerW, powerW]),
    };
    expect(Math.max(...log.speedMps.subarray(from - 8, from))).toBeLessThan(1.05);
    const { chainDrops } = analyseRide(made, ride.bike).events;
    expect(chainDrops.map(({ side }) => side)).toEqual(Array(count).fill('past-largest'));
  });

  it('right after a command name the cog it was for', () => {
    const ride = at(7).pedal(12);
    const { chainDrops } = analysed(drop(ride.command(8).pedal(2))).events;
    expect(chainDrops.map(({ side, afterShiftTo }) => [side, afterShiftTo])).toEqual([['past-largest', 8]]);
  });

  it('right after a shift make it a miss, though the chain was on the cog for a moment', () => {
    const ride = at(7).pedal(12);
    const atS = ride.nowS;
    const { events } = analysed(drop(ride.shift(8).pedal(3)));
    expect(events.chainDrops.map(({ afterShiftTo }) => afterShiftTo)).toEqual([8]);
    expect(events.shifts.find(({ timeS }) => timeS === atS)).toMatchObject({ outcome: 'missed', crankRevs: null });
  });

  it('right after a change of ring are at the chainring', () => {
    const ride = at(8, warmedUp(madeDoubleBike)).pedal(12);
    const { chainDrops } = analysed(drop(ride.command(ride.cog, 0).pedal(2))).events;
    expect(chainDrops.map(({ side }) => side)).toEqual(['chainring']);
  });

  it('past the smallest cog show where the legs stop at once and the bike rolls to a halt', () => {
    const lost = (ride: MadeRide): MadeRide => ride.spinInVain(2, 88).coast(8).brake(4, 0).stand(40).pedal(60);
    const { chainDrops } = analysed(lost(at(1).pedal(12).command(0))).events;
    expect(chainDrops.map(({ side, afterShiftTo }) => [side, afterShiftTo])).toEqual([['past-smallest', 0]]);
  });

  it('show by how often a halt follows at once on the end cog, and the legs alone say nothing', () => {
    const thrown = at(1);
    for (let n = 0; n < 12; n++) {
      thrown.pedal(25).shift(0);
      if (n % 4 === 1) thrown.pedal(2).coast(9).brake(4, 0).stand(40);
      else thrown.pedal(20);
      thrown.shift(1).pedal(20);
    }
    const { chainDrops } = analysed(thrown).events;
    expect(chainDrops.map(({ side }) => side)).toEqual(['past-smallest', 'past-smallest', 'past-smallest']);
    expect(chainDrops[0].signs?.filter(({ sign }) => sign === 'halts-on-cog' || sign === 'shifts-onto-cog')).toEqual([
      { sign: 'halts-on-cog', value: 3, logOdds: 0 },
      { sign: 'shifts-onto-cog', value: 12, logOdds: 0 },
    ]);
  });

  it('are never read into a stop that was meant, whichever cog was asked for before it', () => {
    for (const cog of [1, 3, 6, 7]) {
      const ride = at(cog);
      for (const asked of [cog - 1, cog + 1])
        ride.pedal(25).shift(asked).coast(5).brake(4, 0).stand(40).shift(cog).pedal(40);
      expect(analysed(ride).events.chainDrops, `cog ${cog}`).toEqual([]);
    }
  });

  it('keep the side of the end cog where the rider shifts back at once', () => {
    for (const [cog, side] of [
      [8, 'past-largest'],
      [0, 'past-smallest'],
    ] as const) {
      const ride = at(cog === 0 ? 1 : 7)
        .pedal(12)
        .command(cog)
        .pedal(1)
        .command(cog === 0 ? 1 : 7)
        .pedal(1);
      const { chainDrops } = analysed(drop(ride)).events;
      expect(chainDrops.map((one) => [one.side, one.afterShiftTo])).toEqual([[side, cog]]);
    }
  });

  it('are never read into freewheeling, at whatever cadence the legs go round', () => {
    const ride = at(8);
    for (const rpm of [90, 80, 60, 40, 0]) ride.pedal(15, { cadenceRpm: 70 }).coast(8, Math.min(rpm, 72));
    expect(analysed(ride.stand(20).pedal(30)).events.chainDrops).toEqual([]);
  });

  it('are never read into braking while the sensor holds the cadence', () => {
    for (const cog of [8, 4, 0]) {
      const ride = at(cog);
      for (let n = 0; n < 3; n++) ride.pedal(25).brake(5, 78).stand(30).pedal(30);
      expect(analysed(ride).events.chainDrops, `cog ${cog}`).toEqual([]);
    }
  });

  it('are never read into a jerk of a second after which the chain drives on, on another cog, whatever stop comes then', () => {
    const jerk = at(4)
      .pedal(12)
      .spinInVain(1, 118)
      .move(3)
      .pedal(9, { cadenceRpm: 62 })
      .coast(3)
      .brake(4, 0)
      .stand(40)
      .pedal(60);
    const lost = at(4).pedal(12).spinInVain(1, 118).coast(12).brake(4, 0).stand(40).pedal(60);
    const found = (ride: MadeRide) => {
      const log = ride.log();
      return analyseRide({ ...log, powerW: log.powerW.map(() => Number.NaN) }, ride.bike).events.chainDrops.length;
    };
    expect([found(jerk), found(lost)]).toEqual([0, 1]);
  });

  it('are never read into shifting to larger cogs while braking before a stop', () => {
    const ride = at(2).pedal(20);
    for (let n = 0; n < 3; n++) {
      ride.brake(1, 70).command(5).brake(2, 60).command(8).move(8).brake(2, 40).stand(30).pedal(20);
      at(2, ride).pedal(20);
    }
    expect(analysed(ride).events.chainDrops).toEqual([]);
  });

  describe('after coasting over shifts to the smallest cog', () => {
    /** Coasts downhill from cog 6, commands the smallest, turns the legs at a cadence for a while, then rolls on and stands for a while. */
    const coastAndSpin = ({ rpm = 118, powerW = 10, standS = 40, spinS = 3, again = 0, before = 0 }): number => {
      const ride = at(6).pedal(20);
      const from = ride.nowS;
      ride
        .coast(3)
        .command(3)
        .coast(2)
        .command(0)
        .coast(3)
        .spinInVain(1, before, before)
        .spinInVain(spinS, rpm, powerW);
      ride.coast(6, again);
      const to = ride.nowS;
      const log = ride.brake(5, 0).stand(standS).move(0).pedal(60).log();
      const speedMps = log.speedMps.map((v, i) => (i >= from && i < to ? 3.6 * v : v));
      return analyseRide({ ...log, speedMps }, ride.bike).events.chainDrops.length;
    };

    it('are seen by legs that run faster than the rider ever pedals, and by the halt that follows', () => {
      expect(coastAndSpin({})).toBe(1);
    });

    it.each([
      ['legs at the usual cadence', { rpm: 78 }],
      ['power at the pedals', { powerW: 180 }],
      ['no halt for long', { standS: 4 }],
      ['a long spell of spinning', { spinS: 9 }],
      ['pedalling on before the halt', { again: 70 }],
      ['legs that gather pace rather than leap', { before: 112 }],
    ])('are not read into %s', (_what, change) => {
      expect(coastAndSpin(change)).toBe(0);
    });
  });

  it('are seen though the sensor still shows the speed rising, but not where a driven bike would show as little', () => {
    // legs at half as much again for two seconds: a bike that is driven so gains a tenth of its speed behind any sensor
    const rising = (gainMps: number): number => {
      const ride = at(4).pedal(20);
      const start = ride.nowS;
      const log = ride.spinInVain(2, 125).coast(4).brake(6, 0).stand(40).pedal(60).log();
      const before = log.speedMps[start - 1];
      const speedMps = log.speedMps.map((v, i) =>
        i >= start && i < start + 3 ? before + (gainMps * (i - start)) / 2 : v,
      );
      const powerW = log.powerW.map(() => Number.NaN);
      return analyseRide({ ...log, speedMps, powerW }, ride.bike).events.chainDrops.length;
    };
    expect(rising(0.1)).toBe(1);
    expect(rising(1.5)).toBe(0);
  });

  it('are ruled out by power that is still there', () => {
    const dropsAt = (powerW: number): number => {
      const ride = at(8).pedal(12).spinInVain(4, 116, powerW).coast(5).brake(4, 0).stand(40).pedal(60);
      return analysed(ride).events.chainDrops.length;
    };
    expect([0, 240].map(dropsAt)).toEqual([1, 0]);
  });

  it('are seen where a climbing bike stalls within seconds, but not in legs that turn while it stands or whose cadence is held', () => {
    const climb = at(8).pedal(30, { cadenceRpm: 45 });
    const lostAt = climb.nowS;
    const log = climb.stand(60).pedal(60).log();
    const from = log.timeS.findIndex((timeS) => timeS >= lostAt);
    const climbing = log.speedMps[from - 2];
    const found = (speeds: readonly number[], cadences: readonly number[]): number => {
      const edited = { ...log, speedMps: log.speedMps.slice(), cadenceRpm: log.cadenceRpm.slice() };
      edited.powerW = log.powerW.map(() => Number.NaN);
      speeds.forEach((share, k) => {
        edited.speedMps[from + k] = share * climbing;
      });
      cadences.forEach((rpm, k) => {
        edited.cadenceRpm[from + k] = rpm;
      });
      return analyseRide(edited, madeBike).events.chainDrops.length;
    };
    expect(climbing).toBeLessThan(2);
    expect(found([0.8, 0.4, 0.2, 0], [88, 80, 30, 0])).toBe(1);
    expect(found([0.8, 0.4, 0.2, 0], [45, 45, 45, 0])).toBe(0);
    expect(found([0.8, 0.4, 0.2, ...Array(12).fill(0)], [...Array(8).fill(0), 88, 88, 88, 88])).toBe(0);
  });

  it('are never read into a pause, a gap of the record or a silent sensor', () => {
    const log = at(4).pedal(60).stand(60).pedal(60).log();
    const kept = [...log.timeS.keys()].filter((i) => i < 300 || i > 360);
    const gap = someRecords(log, kept);
    expect(analyseRide(gap, madeBike).events.chainDrops).toEqual([]);
    const silent = { ...log, speedMps: log.speedMps.map((v, i) => (i > 280 && i < 300 ? 0 : v)) };
    expect(analyseRide(silent, madeBike).events.chainDrops).toEqual([]);
  });
});

describe('the signs of a chain drop', () => {
  const signsOf = (ride: MadeRide) => {
    const [{ signs = [], confidence }] = analysed(ride).events.chainDrops;
    return {
      confidence,
      signs,
      value: (name: DropSign) => signs.find(({ sign }) => sign === name)?.value ?? Number.NaN,
    };
  };

  /** Seconds below 1 m/s. */
  const standingS = ({ speedMps }: RideLog): number => speedMps.filter((mps) => mps < 1).length;

  it('are what was measured, and add up to its confidence', () => {
    const ride = at(7).pedal(12).command(8).pedal(2);
    const before = ride.log().cadenceRpm.slice(-6);
    ride.spinInVain(4, 116, 10).coast(5).brake(4, 0).stand(40).pedal(60);
    const { signs, value, confidence } = signsOf(ride);
    // the third of the four seconds has the fastest legs
    expect(Math.exp(value('legs-faster'))).toBeCloseTo(120 / (median(before) as number), 6);
    expect(value('records-below')).toBe(4);
    expect(value('legs-fast-for')).toBe(4);
    expect(value('power-gone')).toBeCloseTo(10, 5);
    expect(value('end-cog-asked')).toBe(2);
    expect(value('halt-lasts')).toBe(standingS(ride.log()));
    expect(1 / (1 + Math.exp(-signs.reduce((sum, { logOdds }) => sum + logOdds, 0)))).toBeCloseTo(confidence, 12);
  });

  it('tell when the legs stopped where they did so at once', () => {
    const ride = at(1).pedal(12).command(0).spinInVain(1, 88).coast(8).brake(4, 0).stand(40).pedal(60);
    const log = ride.log();
    const found = haltsAtEnd(log, traceGears(log, ride.bike)).at(-1);
    const value = (name: DropSign) => found?.signs.find(({ sign }) => sign === name)?.value ?? Number.NaN;
    expect(found?.pattern).toBe('halt-at-smallest');
    expect([value('end-cog-asked'), value('legs-stopped-after'), value('halt-after')]).toEqual([0, 0, 12]);
    expect(value('halt-lasts')).toBe(standingS(log));
  });

  it.each([
    [6, true],
    [15, true],
    [17, false],
  ])('are looked for past an end where the legs are shown %i s longer: %s', (spunS, found) => {
    const ride = at(1).pedal(12).command(0).spinInVain(spunS, 84).coast(8).brake(4, 0).stand(40).pedal(60);
    const log = ride.log();
    expect(haltsAtEnd(log, traceGears(log, ride.bike)).length > 0).toBe(found);
  });

  it('have no end of the halt where the recording ends in it, and no power without a meter', () => {
    const ride = at(8).pedal(12).spinInVain(4, 116).coast(5).brake(4, 0).stand(40);
    expect(signsOf(ride).value('halt-lasts')).toBe(Number.POSITIVE_INFINITY);
    const log = ride.log();
    const [{ signs }] = analyseRide({ ...log, powerW: log.powerW.map(() => Number.NaN) }, ride.bike).events.chainDrops;
    expect(signs?.map(({ sign }) => sign)).not.toContain('power-gone');
    expect(signs?.map(({ sign }) => sign)).toContain('end-cog-held');
  });
});

describe('dropSide', () => {
  it('tells how long ago the shift was that led to it', () => {
    const ride = at(7).pedal(12).command(8).pedal(3);
    const log = ride.log();
    const trace = traceGears(log, madeBike);
    expect(dropSide(log, trace, ride.nowS)).toEqual({ side: 'past-largest', afterShiftTo: 8, sinceShiftS: 3 });
    expect(dropSide(log, trace, ride.nowS + 5).sinceShiftS).toBeNaN();
  });

  it('goes by the later of a change of ring and a shift onto the end cog', () => {
    const bike = { ...madeBike, chainrings: [38, 48] };
    const sideAfter = (ask: (ride: MadeRide) => MadeRide) => {
      const ride = ask(at(7, warmedUp(bike)).pedal(12));
      return dropSide(ride.log(), traceGears(ride.log(), bike), ride.nowS);
    };
    const ringFirst = sideAfter((ride) => ride.command(7, 0).pedal(2).command(8, 0).pedal(3));
    expect(ringFirst).toEqual({ side: 'past-largest', afterShiftTo: 8, sinceShiftS: 3 });
    const ringLast = sideAfter((ride) => ride.command(8).pedal(2).command(8, 0).pedal(3));
    expect(ringLast).toMatchObject({ side: 'chainring', afterShiftTo: 8 });
  });

  it('is unknown without a gear model, and by the traced cog without records', () => {
    const bare = madeLog({ speedMps: [5, 5], cadenceRpm: [80, 80] });
    expect(dropSide(bare, traceGears(bare, madeBike), 1)).toMatchObject({ side: 'unknown', afterShiftTo: null });
    const log = at(8).pedal(30).log();
    const none = { ...log, gearRecords: { ...log.gearRecords, timeS: new Float64Array() } };
    const trace = traceGears(none, madeBike);
    expect(dropSide(none, trace, log.timeS.at(-1) as number)).toMatchObject({
      side: 'past-largest',
      afterShiftTo: null,
    });
    const middle = at(4).pedal(30).log();
    const blind = { ...middle, gearRecords: { ...middle.gearRecords, timeS: new Float64Array() } };
    const seen = dropSide(blind, traceGears(blind, madeBike), middle.timeS.at(-1) as number);
    expect(seen).toMatchObject({ side: 'unknown', afterShiftTo: null });
  });

  it('is the end whose outer cogs the chain was last on where nothing was recorded: it is lost on its way there', () => {
    const sideFrom = (cog: number): string => {
      const log = at(cog).pedal(30).log();
      const none = { ...log, gearRecords: { ...log.gearRecords, timeS: new Float64Array() } };
      return dropSide(none, traceGears(none, madeBike), log.timeS.at(-1) as number).side;
    };
    expect([0, 2, 3, 5, 6, 7].map(sideFrom)).toEqual([
      'past-smallest',
      'past-smallest',
      'unknown',
      'unknown',
      'past-largest',
      'past-largest',
    ]);
  });
});

it('takes a speed that is missing for no wheel that stalls', () => {
  const ride = at(8).pedal(40, { cadenceRpm: 40 });
  const from = ride.nowS;
  const log = ride.pedal(12, { cadenceRpm: 115 }).pedal(60).log();
  const speedMps = log.speedMps.map((speed, i) => (i >= from && i < from + 10 ? Number.NaN : speed));
  const { trace } = analyseRide({ ...log, speedMps }, ride.bike);
  const { depth } = belowGears({ ...log, speedMps }, trace);
  expect(trace.samples.pedalling[from + 3]).toBe(1);
  expect(depth(from + 3)).toBeNaN();
});

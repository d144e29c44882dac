import { describe, expect, it } from 'vitest';
import { type AnalysedRide, analyseRide } from '../../src/analyse.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { dropSide } from '../../src/shifts/drop-side.ts';
import { likelyGhosts } from '../../src/shifts/ghost-rate.ts';
import { ghostShifts } from '../../src/shifts/ghost-shifts.ts';
import { ghostSteps } from '../../src/shifts/ghost-steps.ts';
import { lowestLevels } from '../../src/shifts/lowest-levels.ts';
import { secondsEvidence } from '../../src/shifts/seconds-evidence.ts';
import { skips } from '../../src/shifts/skips.ts';
import { MadeRide, madeBike, madeDoubleBike, madeLog } from '../gear-trace/made-ride.ts';

const analysed = (ride: MadeRide): AnalysedRide => analyseRide(ride.log(), ride.bike);
const warmedUp = (bike = madeBike): MadeRide => new MadeRide(bike).pedal(30).wander(20).pedal(15);
/** Shifts one by one until the derailleur and the chain stand at a cog. */
function at(cog: number, ride = warmedUp()): MadeRide {
  while (ride.cog !== cog) ride.shift(ride.cog + Math.sign(cog - ride.cog)).pedal(8);
  return ride;
}

describe('ghost shifts', () => {
  it('are moves of the chain that nobody asked for, with how long they held', () => {
    for (const step of [-1, 1]) {
      const ride = at(4).pedal(15);
      const movedAt = ride.nowS;
      ride
        .move(4 + step)
        .pedal(20)
        .move(4)
        .pedal(20);
      const { ghostShifts, shifts } = analysed(ride).events;
      expect(ghostShifts.length).toBe(1);
      const [ghost] = ghostShifts;
      expect([ghost.fromCog, ghost.toCog]).toEqual([4, 4 + step]);
      expect(Math.abs(ghost.timeS - movedAt)).toBeLessThan(2);
      expect(Math.abs(ghost.heldS - 20)).toBeLessThan(3);
      expect(ghost.confidence).toBeGreaterThan(0.9);
      expect(ghost.torqueNm).toBeGreaterThan(0);
      expect(shifts.every(({ outcome }) => outcome === 'clean')).toBe(true);
    }
  });

  it('are found by the step of the cadence where the trace does not follow', () => {
    // the speed strays in long runs, so that the trace takes each second for a small part of evidence
    const strayed = (ride: MadeRide) => {
      const log = ride.log();
      return { ...log, speedMps: log.speedMps.map((speed, i) => speed * (1 + 0.02 * Math.sin(i / 6))) };
    };
    const found = (ride: MadeRide) => {
      const log = strayed(ride);
      const trace = traceGears(log, madeBike);
      const still = { ...trace, cog: trace.cog.map((cog, i) => (i > log.timeS.length - 30 ? 4 : cog)) };
      return ghostSteps(log, still, 0);
    };
    const hop = (seconds: number) =>
      at(4)
        .pedal(15)
        .move(5)
        .pedal(seconds, { cadenceRpm: (80 * 23) / 20 })
        .move(4)
        .pedal(14);
    const [ghost] = likelyGhosts(found(hop(5)));
    expect([ghost?.fromCog, ghost?.toCog]).toEqual([4, 5]);
    expect(Math.abs(ghost.heldS - 5)).toBeLessThanOrEqual(1);
    expect(likelyGhosts(found(hop(1)))).toEqual([]);
    expect(likelyGhosts(found(at(4).pedal(34)))).toEqual([]);
    // a speed that sags while the legs keep their pace is the sensor's own
    const sagging = at(4).pedal(34);
    const log = sagging.log();
    const speedMps = log.speedMps.map((speed, i) =>
      i > log.timeS.length - 16 && i < log.timeS.length - 10 ? speed * 0.87 : speed,
    );
    const trace = traceGears({ ...log, speedMps }, madeBike);
    expect(
      likelyGhosts(
        ghostSteps(
          { ...log, speedMps },
          { ...trace, cog: trace.cog.map((cog, i) => (i > speedMps.length - 30 ? 4 : cog)) },
          0,
        ),
      ),
    ).toEqual([]);
  });

  it('are weighed at the rate that the ride’s other sure ones show', () => {
    const candidate = (timeS: number, logOdds: number) => ({
      ghost: { timeS, fromCog: 4, toCog: 5, heldS: 3, torqueNm: Number.NaN },
      logOdds,
      leastLogOdds: 3,
    });
    const doubtful = candidate(900, 2);
    expect(likelyGhosts([doubtful])).toEqual([]);
    const sure = [100, 300, 500].map((timeS) => candidate(timeS, 9));
    const found = likelyGhosts([doubtful, ...sure]);
    expect(found.map(({ timeS }) => timeS)).toEqual([100, 300, 500, 900]);
    // three others: four times the rate, so the log of four on top
    expect(found[3].confidence).toBeCloseTo(1 / (1 + Math.exp(-(2 + Math.log(4)))), 3);
    // two findings of one event are one, the surer of them
    expect(likelyGhosts([candidate(100, 9), candidate(101.5, 4)]).map(({ timeS }) => timeS)).toEqual([100]);
  });

  it('are none where a command came in the 5 s before', () => {
    const within = at(4).pedal(15).shift(5).pedal(2).move(6).pedal(20);
    expect(analysed(within).events.ghostShifts).toEqual([]);
    const after = at(4).pedal(15).shift(5).pedal(9).move(6).pedal(20);
    expect(analysed(after).events.ghostShifts.map(({ fromCog, toCog }) => [fromCog, toCog])).toEqual([[5, 6]]);
  });

  it('end with the next command', () => {
    const ride = at(4).pedal(15);
    ride.move(5).pedal(12).command(3).pedal(1).move(3).pedal(25);
    const { ghostShifts } = analysed(ride).events;
    expect(ghostShifts.length).toBe(1);
    expect(ghostShifts[0].heldS).toBeLessThan(15);
  });

  it('are not read into freewheeling, soft pedalling or a ratio that runs away as the cranks come to rest', () => {
    const ride = at(4);
    for (const rpm of [70, 60, 45, 35]) ride.pedal(15).coast(6, rpm);
    ride.pedal(15);
    for (const rpm of [66, 50, 41, 33, 20, 0, 0, 0]) ride.coast(1, rpm);
    ride.pedal(30);
    expect(analysed(ride).events.ghostShifts).toEqual([]);
  });

  it('are none in a ride without gear records', () => {
    const log = at(4).pedal(15).move(5).pedal(20).log();
    const none = { ...log, gearRecords: { ...log.gearRecords, timeS: new Float64Array() } };
    expect(ghostShifts(none, traceGears(none, madeBike), 0)).toEqual([]);
  });
});

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

  it('right after a command name the cog it was for', () => {
    const ride = at(7).pedal(12);
    const { chainDrops } = analysed(drop(ride.command(8).pedal(2))).events;
    expect(chainDrops.map(({ side, afterShiftTo }) => [side, afterShiftTo])).toEqual([['past-largest', 8]]);
  });

  it('right after a change of ring are at the chainring', () => {
    const ride = at(8, warmedUp(madeDoubleBike)).pedal(12);
    const { chainDrops } = analysed(drop(ride.command(ride.cog, 0).pedal(2))).events;
    expect(chainDrops.map(({ side }) => side)).toEqual(['chainring']);
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
    const coastAndSpin = ({ rpm = 118, powerW = 10, standS = 40, spinS = 3, again = 0 }): number => {
      const ride = at(6).pedal(20);
      const from = ride.nowS;
      ride.coast(3).command(3).coast(2).command(0).coast(4).spinInVain(spinS, rpm, powerW).coast(6, again);
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
    const pick = (column: Float64Array): Float64Array => Float64Array.from(kept, (i) => column[i]);
    const gap = {
      ...log,
      timeS: pick(log.timeS),
      speedMps: pick(log.speedMps),
      cadenceRpm: pick(log.cadenceRpm),
      powerW: pick(log.powerW),
      distanceM: pick(log.distanceM),
    };
    expect(analyseRide(gap, madeBike).events.chainDrops).toEqual([]);
    const silent = { ...log, speedMps: log.speedMps.map((v, i) => (i > 280 && i < 300 ? 0 : v)) };
    expect(analyseRide(silent, madeBike).events.chainDrops).toEqual([]);
  });
});

describe('dropSide', () => {
  it('is unknown without a gear model, and by the traced cog without records', () => {
    const bare = madeLog({ speedMps: [5, 5], cadenceRpm: [80, 80] });
    expect(dropSide(bare, traceGears(bare, madeBike), 1)).toEqual({ side: 'unknown', afterShiftTo: null });
    const log = at(8).pedal(30).log();
    const none = { ...log, gearRecords: { ...log.gearRecords, timeS: new Float64Array() } };
    const trace = traceGears(none, madeBike);
    expect(dropSide(none, trace, log.timeS.at(-1) as number)).toEqual({ side: 'past-largest', afterShiftTo: null });
  });
});

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

describe('secondsEvidence', () => {
  const ride = at(4).pedal(30).coast(6, 45).pedal(20);
  const log = ride.log();
  const trace = traceGears(log, madeBike);
  const evidence = secondsEvidence(log, trace, 0.6);
  const level = (cog: number): number => Math.log(ride.developmentM(cog));

  it('speaks for the gear that is driven', () => {
    const second = log.timeS.length - 5;
    for (const other of [2, 3, 5, 6])
      expect(evidence(second, level(4))).toBeGreaterThan(evidence(second, level(other)) + 1);
  });

  it('lets a second without power lie above a gear, never below', () => {
    const second = log.powerW.findLastIndex((w, i) => w === 0 && log.cadenceRpm[i] === 45);
    const y = trace.logDevelopment[second];
    expect(evidence(second, y - 0.4)).toBeGreaterThan(evidence(second, y + 0.4) + 1);
  });

  it('says nothing where there is no ratio', () => {
    const bare = madeLog({ speedMps: [0, 0], cadenceRpm: [0, 0] });
    const nothing = secondsEvidence(bare, traceGears(bare, madeBike), 0.6);
    expect([nothing(0, 1), nothing(1, 2)]).toEqual([0, 0]);
  });
});

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

  it('are found where the cranks run ahead for under 2 s and the cog stays', () => {
    const { log, from } = skipping(0.3, 1);
    const { events } = analyseRide(log, madeBike);
    expect(events.skips.length).toBe(1);
    expect(events.skips[0].cog).toBe(3);
    expect(Math.abs(events.skips[0].timeS - from)).toBeLessThan(2);
    expect(events.skips[0].confidence).toBeGreaterThan(0.3);
    expect(events.chainDrops).toEqual([]);
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

import { describe, expect, it } from 'vitest';
import { gearCommands } from '../../src/gear-trace/commands/gear-commands.ts';
import { emptyTrace } from '../../src/gear-trace/gear-trace.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { withoutRecords } from '../accuracy/without-records.ts';
import { MadeRide, madeBike, madeDoubleBike, madeLog, shareRight } from './made-ride.ts';
import { rideAllCogs } from './ride-all-cogs.ts';
import { someRecords } from './some-records.ts';

const codes = (trace: { warnings: readonly { code: string }[] }): string[] => trace.warnings.map(({ code }) => code);
const same = (a: Int8Array, b: Int8Array): number => a.filter((cog, i) => cog === b[i]).length / a.length;
const all = rideAllCogs();
const allLog = all.log();
const trace = traceGears(allLog, madeBike);

describe('traceGears over all cogs', () => {
  it('names the true cog in settled pedalling, with records and without', () => {
    expect(trace.evidence).toBe('full');
    expect(trace.gearSource).toBe('recorded');
    expect(shareRight(all, trace.cog, allLog)).toBeGreaterThan(0.995);
    const blind = traceGears(withoutRecords(allLog), madeBike);
    expect(blind.evidence).toBe('ratio-only');
    expect(blind.gearSource).toBe('inferred');
    expect(shareRight(all, blind.cog, allLog)).toBeGreaterThan(0.99);
  });

  it('measures rollout, noise and teeth', () => {
    expect(Math.abs(trace.rolloutMm / 2100 - 1)).toBeLessThan(0.005);
    expect(trace.model?.noise.relative).toBeGreaterThan(0.003);
    expect(trace.model?.noise.relative).toBeLessThan(0.012);
    expect(trace.measured).toEqual({ chainrings: [40], cassette: madeBike.cassette });
    expect(codes(trace)).toEqual([]);
  });

  it('gives probabilities', () => {
    for (let i = 0; i < trace.cog.length; i++) {
      expect(trace.cogProbability[i] >= 0 && trace.cogProbability[i] <= 1 + 1e-6).toBe(true);
      expect(trace.driving[i] >= 0 && trace.driving[i] <= 1 + 1e-5).toBe(true);
      if (trace.cog[i] < 0) expect(trace.cogProbability[i]).toBe(0);
      else expect(trace.cogProbability[i]).toBeGreaterThanOrEqual(0.5 - 1e-6);
    }
  });
});

it('needs a record that names a cog to compare the chain with', () => {
  const { gearRecords } = allLog;
  const ringsOnly = {
    ...gearRecords,
    rearTeeth: gearRecords.rearTeeth.map(() => 0),
    rearPosition: gearRecords.rearPosition.map(() => 0),
    frontTeeth: gearRecords.frontTeeth.map(() => 40),
  };
  const traced = traceGears({ ...allLog, gearRecords: ringsOnly }, madeBike);
  expect([traced.evidence, traced.gearSource]).toEqual(['ratio-only', 'inferred']);
});

describe('traceGears does not change its mind when', () => {
  it('all times are moved', () => {
    const moved = traceGears(
      {
        ...allLog,
        timeS: allLog.timeS.map((t) => t + 5000),
        gearRecords: { ...allLog.gearRecords, timeS: allLog.gearRecords.timeS.map((t) => t + 5000) },
      },
      madeBike,
    );
    expect(moved.cog).toEqual(trace.cog);
    expect(moved.rolloutMm).toBeCloseTo(trace.rolloutMm, 6);
  });

  it('wheel and bike file are larger by the same factor', () => {
    const larger = { ...allLog, speedMps: allLog.speedMps.map((v) => v * 1.06) };
    const scaled = traceGears(larger, { ...madeBike, rolloutMm: 2100 * 1.06 });
    expect(same(scaled.cog, trace.cog)).toBeGreaterThan(0.998);
    expect(scaled.rolloutMm / trace.rolloutMm).toBeCloseTo(1.06, 3);
    expect(scaled.measured).toEqual(trace.measured);
  });

  it('the recorded teeth are others at the same positions', () => {
    const relabelled = traceGears(
      { ...allLog, gearRecords: { ...allLog.gearRecords, rearTeeth: allLog.gearRecords.rearTeeth.map((t) => t + 2) } },
      madeBike,
    );
    expect(relabelled.cog).toEqual(trace.cog);
    expect(codes(relabelled)).toEqual(['recorded-teeth-differ']);
  });

  it('every fifth record lacks its speed or cadence', () => {
    const holes = (column: Float64Array, at: number): Float64Array =>
      column.map((value, i) => (i % 5 === at ? Number.NaN : value));
    const holed = { ...allLog, speedMps: holes(allLog.speedMps, 0), cadenceRpm: holes(allLog.cadenceRpm, 2) };
    const { cog } = traceGears(holed, madeBike);
    expect(shareRight(all, cog, holed)).toBeGreaterThan(0.99);
  });
});

describe('traceGears with a bike file that is wrong', () => {
  it('says so where the rollout is 8 % off, and finds the cogs all the same', () => {
    const off = traceGears(allLog, { ...madeBike, rolloutMm: 2100 * 1.08 });
    expect(codes(off)).toContain('rollout-differs');
    expect(Math.abs(off.rolloutMm / 2100 - 1)).toBeLessThan(0.01);
    expect(shareRight(all, off.cog, allLog)).toBeGreaterThan(0.99);
  });

  it('measures the teeth it shows where one cog is wrong', () => {
    const wrong = { ...madeBike, cassette: madeBike.cassette.map((t) => (t === 20 ? 19 : t)) };
    const measured = traceGears(allLog, wrong);
    expect(measured.measured.cassette).toEqual(madeBike.cassette);
    expect(codes(measured)).toContain('teeth-differ');
    expect(shareRight(all, measured.cog, allLog)).toBeGreaterThan(0.99);
  });
});

it("tells another bike's records from a ride without cadence too", () => {
  const silent = { ...allLog, cadenceRpm: allLog.cadenceRpm.map(() => Number.NaN) };
  const smaller = { ...madeBike, cassette: madeBike.cassette.slice(0, 7) };
  expect(codes(traceGears(silent, smaller))).toEqual(['no-cadence', 'another-bike']);
});

describe('traceGears with speed in km/h', () => {
  // a format that leaves the unit to whoever wrote the file
  const inKmh = { ...allLog, format: 'csv' as const, speedMps: allLog.speedMps.map((v) => 3.6 * v) };

  it('says so, tells no teeth by it, and finds the cogs all the same', () => {
    const traced = traceGears(inKmh, madeBike);
    expect(codes(traced)).toEqual(['speed-unit-doubtful']);
    expect([...traced.measured.chainrings, ...traced.measured.cassette].every((teeth) => teeth === null)).toBe(true);
    expect(shareRight(all, traced.cog, inKmh)).toBeGreaterThan(0.99);
  });
});

describe('traceGears with two rings', () => {
  const ride = new MadeRide(madeDoubleBike).pedal(30).wander(20);
  ride.command(ride.cog, 0).pedal(1).move(ride.cog, 0).pedal(20).wander(20);
  const log = ride.log();
  const ringsRight = (ring: Int8Array): number =>
    ride.trueRing.filter((truly, i) => ring[i] === truly).length / ride.trueRing.length;

  it('follows cog and ring by their records', () => {
    const both = traceGears(log, madeDoubleBike);
    expect(shareRight(ride, both.cog, log)).toBeGreaterThan(0.99);
    expect(ringsRight(both.ring)).toBeGreaterThan(0.97);
  });

  it('finds the ring where nobody recorded it', () => {
    const none = new Uint8Array(log.gearRecords.timeS.length);
    const rearOnly = { ...log, gearRecords: { ...log.gearRecords, frontTeeth: none, frontPosition: none } };
    const { cog, ring } = traceGears(rearOnly, madeDoubleBike);
    expect(shareRight(ride, cog, log)).toBeGreaterThan(0.99);
    expect(ringsRight(ring)).toBeGreaterThan(0.97);
  });
});

describe('traceGears over what sensors do', () => {
  it('stays sound over ten minutes without cadence', () => {
    const ride = new MadeRide().pedal(30).wander(20).wander(50).wander(20);
    const log = ride.log();
    const silent = (i: number): boolean => i > 280 && i < 880;
    const holed = { ...log, cadenceRpm: log.cadenceRpm.map((rpm, i) => (silent(i) ? Number.NaN : rpm)) };
    const { cog, cogProbability, evidence } = traceGears(holed, madeBike);
    expect(evidence).toBe('full');
    expect(shareRight(ride, cog, holed)).toBeGreaterThan(0.99);
    expect([...cogProbability].some(Number.isNaN)).toBe(false);
  });

  it('does not follow a speed that a recorder holds', () => {
    const ride = new MadeRide().pedal(30).wander(30).pedal(60).wander(10);
    const log = ride.log();
    const from = 410;
    const held = log.speedMps.map((v, i) => (i >= from && i < from + 25 ? log.speedMps[from] : v));
    const { cog } = traceGears({ ...log, speedMps: held }, madeBike);
    expect(shareRight(ride, cog, log)).toBeGreaterThan(0.98);
  });

  it('bears uneven recording: one record in two to seven seconds', () => {
    const ride = new MadeRide().pedal(30).wander(40, 25).pedal(60);
    const log = ride.log();
    const kept: number[] = [];
    for (let i = 0, n = 0; i < log.timeS.length; i += 2 + ((n++ * 7) % 4)) kept.push(i);
    const uneven = someRecords(log, kept);
    const { cog, evidence } = traceGears(uneven, madeBike);
    expect(evidence).toBe('full');
    let right = 0;
    let of = 0;
    kept.forEach((second, i) => {
      if (Array.from({ length: 8 }, (_, k) => second - k).some((s) => ride.trueCog[s] !== ride.trueCog[second])) return;
      of++;
      if (cog[i] === ride.trueCog[second]) right++;
    });
    expect(right / of).toBeGreaterThan(0.98);
  });

  it('names no cog while drive is lost, and the cog again afterwards', () => {
    const ride = new MadeRide().pedal(30).wander(20);
    while (ride.cog < 8) ride.shift(ride.cog + 1).pedal(10);
    ride.spinInVain(8, 120).coast(8).stand(20).pedal(60);
    const log = ride.log();
    const { cog } = traceGears(log, madeBike);
    const lostAt = ride.trueCog.indexOf(-1);
    expect([...cog.subarray(lostAt, lostAt + 8)]).toContain(-1);
    expect([...cog.subarray(0, lostAt - 2)]).not.toContain(-1);
    expect(cog.at(-1)).toBe(ride.cog);
  });
});

describe('traceGears with too little', () => {
  const { gearRecords } = allLog;

  it('says commands-only where records stand without cadence', () => {
    const silent = traceGears({ ...allLog, cadenceRpm: allLog.cadenceRpm.map(() => Number.NaN) }, madeBike);
    expect(silent.evidence).toBe('commands-only');
    expect(silent.gearSource).toBe('recorded');
    expect(codes(silent)).toEqual(['no-cadence']);
    expect(silent.cog.every((cog) => cog === -1)).toBe(true);
    expect(silent.rolloutMm).toBeNaN();
    expect(silent.model).toBeNull();
  });

  it('says none without speed, without pedalling, and for a speed that was computed', () => {
    const bare = withoutRecords(allLog);
    const none: [RideLog, string][] = [
      [{ ...bare, speedMps: bare.speedMps.map(() => Number.NaN) }, 'no-speed'],
      [withoutRecords(new MadeRide().pedal(60).log()), 'too-little-pedalling'],
      [{ ...bare, cadenceRpm: bare.cadenceRpm.map(() => 80) }, 'few-sound-readings'],
      [{ ...bare, cadenceRpm: bare.cadenceRpm.map(() => Number.NaN) }, 'no-cadence'],
      [madeLog({ speedMps: [], cadenceRpm: [] }), 'no-speed'],
      [{ ...bare, speedSource: 'computed' }, 'no-gear-bands'],
    ];
    for (const [log, code] of none) {
      const empty = traceGears(log, madeBike);
      expect(empty.evidence).toBe('none');
      expect(codes(empty)).toEqual([code]);
      expect(empty.cog.every((cog) => cog === -1)).toBe(true);
    }
  });

  it('trusts no gear of a virtual ride, records or not', () => {
    const virtual = { ...allLog, gearRecords, speedSource: 'computed' } as const;
    expect(traceGears(virtual, madeBike).evidence).toBe('commands-only');
  });
});

describe('emptyTrace', () => {
  it('knows nothing, column by column', () => {
    const log = madeLog({ speedMps: [1, 2, 3], cadenceRpm: [0, 0, 0] });
    const samples = pedallingSamples(log);
    const commands = gearCommands(log, madeDoubleBike, samples);
    const empty = emptyTrace({ bike: madeDoubleBike, commands, samples }, 'none', []);
    expect([...empty.cog, ...empty.ring]).toEqual(Array(6).fill(-1));
    expect([...empty.cogProbability, ...empty.driving]).toEqual(Array(6).fill(0));
    expect(empty.rolloutMm).toBeNaN();
    expect(empty.model).toBeNull();
    expect(empty.measured.chainrings).toEqual([null, null]);
    expect(empty.measured.cassette).toEqual(Array(9).fill(null));
    expect([empty.gearSource, empty.evidence]).toEqual(['none', 'none']);
  });
});

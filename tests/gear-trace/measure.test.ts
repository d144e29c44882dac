import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { gearCommands } from '../../src/gear-trace/commands/gear-commands.ts';
import { decodeGears } from '../../src/gear-trace/decoding/decode-gears.ts';
import { gearWarnings } from '../../src/gear-trace/disagreement/gear-warnings.ts';
import { usualNoise } from '../../src/gear-trace/gear-model.ts';
import { decodedPeaks } from '../../src/gear-trace/levels/decoded-peaks.ts';
import { fitCommandedGears } from '../../src/gear-trace/levels/fit-commanded-gears.ts';
import { measureGears } from '../../src/gear-trace/levels/measure-gears.ts';
import { type MeasuredTeeth, measureTeeth } from '../../src/gear-trace/levels/measure-teeth.ts';
import { noiseAbout, residualNoise } from '../../src/gear-trace/levels/residual-noise.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { type Peak, robustCentre } from '../../src/gear-trace/samples/robust-centre.ts';
import { settledSamples } from '../../src/gear-trace/samples/settled-samples.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { gearRecords, madeBike, madeDoubleBike, madeLog } from './made-ride.ts';
import { rideAllCogs } from './ride-all-cogs.ts';

const random = seededRandom(1, 'measure');
const peak = (developmentM: number, count = 200): Peak => ({ centre: Math.log(developmentM), spread: 0.006, count });
const peaksOf = (chainrings: readonly number[], cassette: readonly number[], rolloutM: number): Peak[] =>
  chainrings.flatMap((ring) => cassette.map((cog) => peak((rolloutM * ring) / cog)));

describe('robustCentre', () => {
  it('is not moved by two fifths of freewheeling values', () => {
    const driving = Array.from({ length: 300 }, () => 1.5 + 0.008 * random.normal());
    const free = Array.from({ length: 200 }, () => 1.5 + 0.05 + random.exponential(0.3));
    const { centre, spread, count } = robustCentre([...driving, ...free, Number.NaN]);
    expect(centre).toBeCloseTo(1.5, 2);
    expect(spread).toBeGreaterThan(0.005);
    expect(spread).toBeLessThan(0.013);
    expect(count).toBeGreaterThanOrEqual(300);
  });

  it('moves with its values and is NaN without any', () => {
    const values = Array.from({ length: 50 }, () => random.normal() * 0.01);
    const moved = robustCentre(values.map((value) => value + 0.7));
    expect(moved.centre).toBeCloseTo(robustCentre(values).centre + 0.7, 9);
    expect(moved.spread).toBeCloseTo(robustCentre(values).spread, 9);
    expect(robustCentre([])).toMatchObject({ centre: Number.NaN, count: 0 });
    expect(robustCentre([Number.NaN]).count).toBe(0);
  });
});

describe('a ride over all cogs', () => {
  const ride = rideAllCogs();
  const log = ride.log();
  const samples = pedallingSamples(log);
  const commands = gearCommands(log, madeBike, pedallingSamples(log));
  const measured = measureGears(log, samples, settledSamples(log, samples, commands, { cogs: 9, rings: 1 }));
  const model = fitCommandedGears(measured.peaks, madeBike, {
    speedLagS: measured.speedLagS,
    noise: usualNoise(measured.noise),
  });

  it('is measured: each gear within half a percent, little noise, no lag', () => {
    measured.peaks.forEach(({ centre }, cog) => {
      expect(Math.abs(centre - Math.log(ride.developmentM(cog))), `cog ${cog}`).toBeLessThan(0.005);
    });
    expect(measured.noise).toBeGreaterThan(0.002);
    expect(measured.noise).toBeLessThan(0.01);
    expect(Math.abs(measured.speedLagS)).toBeLessThanOrEqual(0.5);
  });

  it('gives a model with the bike’s rollout', () => {
    expect(Math.exp(model?.logRollout ?? 0)).toBeCloseTo(2.1, 2);
    expect(model?.logDevelopment.length).toBe(9);
  });

  it('is decoded, and its decoded peaks are those gears again', () => {
    if (!model) throw new Error('no model');
    const decoded = decodeGears({ log, bike: madeBike, samples, commands }, model);
    decodedPeaks(decoded, model).forEach(({ centre, count }, cog) => {
      expect(count).toBeGreaterThan(20);
      expect(Math.abs(centre - Math.log(ride.developmentM(cog)))).toBeLessThan(0.005);
    });
  });
});

describe('residualNoise', () => {
  const model = fitCommandedGears(peaksOf([40], madeBike.cassette, 2.1), madeBike, {
    speedLagS: 0,
    noise: usualNoise(0.012),
  });
  if (!model) throw new Error('no model');
  /** Noise found in a ride whose speed had errors added, decoded by its own model. */
  const noiseOf = (error: (i: number, speed: number) => number) => {
    const log = rideAllCogs(2, 0).log();
    const changed = { ...log, speedMps: log.speedMps.map((v, i) => Math.max(0, v + error(i, v))) };
    const samples = pedallingSamples(changed);
    const commands = gearCommands(changed, madeBike, pedallingSamples(changed));
    const decoded = decodeGears({ log: changed, bike: madeBike, samples, commands }, model);
    const shared = noiseAbout(changed, decoded, model.cogs, model.logDevelopment);
    return { ...residualNoise(changed, decoded, model), sharedErrorS: shared?.sharedErrorS };
  };
  const drawn = Float64Array.from({ length: 3000 }, () => random.normal());

  it('finds the size of errors that go with the speed', () => {
    const small = noiseOf((i, v) => 0.01 * v * drawn[i]);
    const large = noiseOf((i, v) => 0.02 * v * drawn[i]);
    expect(small.relative).toBeGreaterThan(0.006);
    expect(small.relative).toBeLessThan(0.015);
    expect(large.relative / small.relative).toBeGreaterThan(1.5);
    expect(small.absoluteMps).toBeLessThan(0.04);
  });

  it('finds errors of a fixed size in metres a second', () => {
    const { absoluteMps } = noiseOf((i) => 0.1 * drawn[i]);
    expect(absoluteMps).toBeGreaterThan(0.06);
    expect(absoluteMps).toBeLessThan(0.14);
  });

  it('trusts single records less where errors come in runs', () => {
    let run = 0;
    const runs = Float64Array.from(drawn, (value) => {
      run = 0.85 * run + Math.sqrt(1 - 0.85 ** 2) * value;
      return run;
    });
    const single = noiseOf((i, v) => 0.015 * v * drawn[i]);
    const inRuns = noiseOf((i, v) => 0.015 * v * runs[i]);
    expect(inRuns.independence).toBeLessThan(0.75 * single.independence);
    // a first-order autoregression of 0.85 shares its errors over (1 + 0.85) / (1 - 0.85) = 12.3 records (Bartlett 1946); speed
    // that is smoothed, cogs that are left and decoding shorten it
    expect(single.sharedErrorS).toBeLessThan(3);
    expect(inRuns.sharedErrorS).toBeGreaterThan(6);
    expect(inRuns.sharedErrorS).toBeLessThan(14);
    for (const { independence } of [single, inRuns]) {
      expect(independence).toBeGreaterThan(0);
      expect(independence).toBeLessThanOrEqual(1);
    }
  });

  it('keeps the model’s own noise where too few records are decoded', () => {
    const short = madeLog({ speedMps: [5, 5], cadenceRpm: [80, 80] });
    const samples = pedallingSamples(short);
    const commands = gearCommands(short, madeBike, samples);
    const decoded = decodeGears({ log: short, bike: madeBike, samples, commands }, model);
    expect(residualNoise(short, decoded, model)).toEqual(model.noise);
  });
});

describe('measureGears', () => {
  it('finds nothing to measure in a ride without settled pedalling', () => {
    const log = madeLog({ speedMps: Array(20).fill(0), cadenceRpm: Array(20).fill(0) });
    const samples = pedallingSamples(log);
    const commands = gearCommands(log, madeBike, samples);
    const measured = measureGears(log, samples, settledSamples(log, samples, commands, { cogs: 9, rings: 1 }));
    expect(measured.noise).toBeNaN();
    expect(measured.peaks.every(({ count, centre }) => count === 0 && Number.isNaN(centre))).toBe(true);
  });
});

describe('fitCommandedGears', () => {
  const sensors = { speedLagS: 0.5, noise: usualNoise(0.01) };

  it('takes over lag and noise, and is null with too few seconds', () => {
    const model = fitCommandedGears(peaksOf([40], madeBike.cassette, 2.1), madeBike, sensors);
    expect(model?.speedLagS).toBe(0.5);
    expect(model?.noise).toEqual(usualNoise(0.01));
    const few = peaksOf([40], madeBike.cassette, 2.1).map((p) => ({ ...p, count: 3 }));
    expect(fitCommandedGears(few, madeBike, sensors)).toBeNull();
  });

  it('corrects one cog of other teeth than written', () => {
    const truly = madeBike.cassette.map((teeth) => (teeth === 23 ? 22 : teeth));
    const model = fitCommandedGears(peaksOf([40], truly, 2.1), madeBike, sensors);
    truly.forEach((teeth, cog) => {
      expect(model?.logDevelopment[cog]).toBeCloseTo(Math.log((2.1 * 40) / teeth), 2);
    });
  });

  it('corrects a ring of other teeth than written', () => {
    const model = fitCommandedGears(peaksOf([32, 50], madeDoubleBike.cassette, 2.1), madeDoubleBike, sensors);
    const cogs = madeDoubleBike.cassette.length;
    const apart = (model?.logDevelopment[cogs] ?? 0) - (model?.logDevelopment[0] ?? 0);
    expect(apart).toBeCloseTo(Math.log(50 / 32), 2);
  });

  it('does not read a cog that the chain never reaches as a cog of its neighbour’s size', () => {
    const peaks = peaksOf([40], madeBike.cassette, 2.1);
    peaks[8] = peaks[7];
    const model = fitCommandedGears(peaks, madeBike, sensors);
    expect(model?.logDevelopment[8]).toBeCloseTo(Math.log((2.1 * 40) / 34), 2);
  });

  it('keeps the scale of the other cogs where most of the ride was spent asking for one that was not reached', () => {
    const cell = madeDoubleBike.cassette.length - 1;
    const peaks = peaksOf([34, 50], madeDoubleBike.cassette, 2.1).map((p) => ({ ...p, count: 40 }));
    peaks[cell] = { ...peaks[cell - 1], count: 900 };
    const model = fitCommandedGears(peaks, madeDoubleBike, sensors);
    expect(Math.exp(model?.logRollout ?? 0)).toBeCloseTo(2.1, 2);
    madeDoubleBike.chainrings.forEach((ring, r) => {
      madeDoubleBike.cassette.forEach((cog, c) => {
        expect(model?.logDevelopment[r * (cell + 1) + c]).toBeCloseTo(Math.log((2.1 * ring) / cog), 2);
      });
    });
  });
});

describe('measureTeeth', () => {
  const SHARED_S = 6;

  it('finds the written teeth where they are right', () => {
    const measured = measureTeeth(peaksOf([34, 50], madeDoubleBike.cassette, 2.1), madeDoubleBike, 2.1, SHARED_S);
    expect(measured.chainrings).toEqual([34, 50]);
    expect(measured.cassette).toEqual(madeDoubleBike.cassette);
    expect(Math.abs(measured.rolloutM / 2.1 - 1)).toBeLessThan(0.01);
  });

  it('finds wrong cogs, and rings whose proportion is wrong', () => {
    const truly = [11, 13, 15, 17, 19, 22, 26, 30, 34];
    const cogs = measureTeeth(peaksOf([40], truly, 2.1), madeBike, 2.1, SHARED_S);
    expect(cogs.cassette).toEqual(truly);
    const rings = measureTeeth(peaksOf([32, 48], madeDoubleBike.cassette, 2.1), madeDoubleBike, 2.1, SHARED_S);
    expect(rings.chainrings).toEqual([32, 48]);
  });

  it('leaves the only ring as written where the rollout is not known: they are one number', () => {
    for (const rolloutM of [2.29, 2.02]) {
      const measured = measureTeeth(peaksOf([40], madeBike.cassette, rolloutM), madeBike, Number.NaN, SHARED_S);
      expect(measured.chainrings).toEqual([40]);
      expect(measured.cassette).toEqual(madeBike.cassette);
    }
  });

  it('asks more of a cog that was hardly ridden, or by a speed whose errors last, before it calls its teeth wrong', () => {
    const wrongBy2 = (count: number): Peak[] =>
      peaksOf([40], madeBike.cassette, 2.1).map((p, cog) =>
        cog === 8 ? { centre: p.centre - 0.02, spread: 0.02, count } : p,
      );
    const teeth = (count: number, sharedS = SHARED_S): number | null =>
      measureTeeth(wrongBy2(count), madeBike, 2.1, sharedS).cassette[8];
    expect(teeth(25)).toBe(madeBike.cassette[8]);
    expect(teeth(2000)).toBe(madeBike.cassette[8] + 1);
    expect(teeth(2000, 500)).toBe(madeBike.cassette[8]);
  });

  it('leaves open what the ride does not show', () => {
    const peaks = peaksOf([34, 50], madeDoubleBike.cassette, 2.1).map((p, gear) => ({
      ...p,
      count: gear < 9 || gear === 17 ? 0 : p.count,
    }));
    const { chainrings, cassette } = measureTeeth(peaks, madeDoubleBike, 2.1, SHARED_S);
    expect(chainrings).toEqual([null, 50]);
    expect(cassette[8]).toBeNull();
    const nothing = measureTeeth(
      peaks.map((p) => ({ ...p, count: 0 })),
      madeDoubleBike,
      Number.NaN,
      SHARED_S,
    );
    expect([...nothing.chainrings, ...nothing.cassette].every((teeth) => teeth === null)).toBe(true);
  });
});

describe('gearWarnings', () => {
  const log = madeLog({ speedMps: [5], cadenceRpm: [80], gearRecords: gearRecords([{ timeS: 0, rearTeeth: 12 }]) });
  const clean = madeLog({ speedMps: [5], cadenceRpm: [80], gearRecords: gearRecords([{ timeS: 0, rearTeeth: 13 }]) });
  const asWritten = { chainrings: [40], cassette: madeBike.cassette, rolloutM: 2.1 };
  type Shown = [log: RideLog, bike: Bike, measured: MeasuredTeeth, rolloutMm: number, writtenMm: number];
  const warned = (...[log, bike, measured, rolloutMm, writtenMm]: Shown) => {
    const written = { ...bike, tyre: undefined, rolloutMm: Number.isNaN(writtenMm) ? undefined : writtenMm };
    return gearWarnings(log, written, { measured, rolloutMm, drifts: false });
  };
  const codes = (...shown: Shown): string[] => warned(...shown).map(({ code }) => code);

  it('is silent where records, bike file and ride agree', () => {
    expect(codes(clean, madeBike, asWritten, 2130, 2100)).toEqual([]);
    expect(codes(clean, madeBike, asWritten, 2500, Number.NaN)).toEqual([]);
  });

  it("says of records that cannot be the bike's that, and not how they were read", () => {
    const rows = [1, 2].map((timeS) => ({ timeS, rear: 12 }));
    const other = madeLog({
      speedMps: [5],
      cadenceRpm: [80],
      gearRecords: gearRecords([...rows, { timeS: 3, rearTeeth: 12 }]),
    });
    expect(codes(other, madeBike, asWritten, 2100, 2100)).toEqual(['more-gears-than-bike']);
    // nor that the bike's teeth are wrong: those of another one were ridden
    const shown = { ...asWritten, cassette: asWritten.cassette.map((teeth) => teeth + 1) };
    expect(codes(clean, madeBike, shown, 2100, 2100)).toEqual(['teeth-differ']);
    expect(codes(other, madeBike, shown, 2100, 2100)).toEqual(['more-gears-than-bike']);
    // nor that its speed is in another unit, or the wheel another: the rollout is that of teeth which were not ridden
    for (const rolloutMm of [2100 * 2.237, 2100 * 1.3])
      expect(codes(other, madeBike, shown, rolloutMm, 2100)).toEqual(['more-gears-than-bike']);
  });

  it("says of the rollout what there is to say where the ride shows the bike's own teeth beside slips of the recorder", () => {
    const { cassette } = madeBike;
    const named = Array.from({ length: 20 }, () => cassette).flat();
    const rows = [...named, 12, 12, 12].map((rearTeeth, timeS) => ({ timeS, rearTeeth }));
    const slipped = madeLog({ speedMps: [5], cadenceRpm: [80], gearRecords: gearRecords(rows) });
    expect(codes(slipped, madeBike, asWritten, 2100, 2100)).toEqual(['another-bike']);
    expect(codes(slipped, madeBike, asWritten, 2700, 2100)).toEqual(['rollout-differs', 'another-bike']);
  });

  it('names the unit of speed where the rollout is that of no wheel, or as many times the written one', () => {
    const message = (rolloutMm: number, writtenMm: number): string => {
      const [{ code, message }] = warned(clean, madeBike, asWritten, rolloutMm, writtenMm);
      expect(code).toBe('speed-unit-doubtful');
      return message;
    };
    expect(message(8248, 2290)).toBe(
      'The ride shows a rollout of 8248 mm, the bike file says 2290 mm. Its speed is probably in km/h, not in m/s: divide it by 3.6 and read the ride again.',
    );
    expect(message(8248, Number.NaN)).toMatch(/which no wheel has. Its speed is probably in km\/h/);
    expect(message(3300, 1480)).toMatch(/in miles an hour, not in m\/s: divide it by 2.237/);
    expect(message(210, 2100)).toMatch(/probably not in m\/s: bring it to metres a second/);
    expect(codes(clean, madeBike, asWritten, 3300, 2100)).toEqual(['rollout-differs']);
    const [fixed] = warned({ ...clean, format: 'fit' }, madeBike, asWritten, 8248, 2290);
    expect(fixed.code).toBe('rollout-differs');
    expect(fixed.message).toMatch(
      /says 2290 mm: check wheel size, rings and cogs, and whether the ride is this bike's/,
    );
  });

  it('names rollout, teeth and records that differ', () => {
    expect(codes(clean, madeBike, asWritten, 2270, 2100)).toEqual(['rollout-differs']);
    const other = {
      ...asWritten,
      cassette: [null, ...madeBike.cassette.slice(1, 5), 22, ...madeBike.cassette.slice(6)],
    };
    const [warning] = warned(clean, madeBike, other, 2100, 2100);
    expect(warning.code).toBe('teeth-differ');
    expect(warning.message).toMatch(/23 \(the ride shows 22\)/);
    // one of rollout and teeth is wrong, and the records side with the teeth
    expect(codes(clean, madeBike, other, 2500, 2100)).toEqual(['rollout-differs']);
    expect(codes(log, madeBike, other, 2500, 2100)).toContain('teeth-differ');
    expect(codes(log, madeBike, asWritten, 2100, 2100)).toEqual(['recorded-teeth-differ']);
  });

  it('says nothing of one cog by one tooth where the speed drifts: that comes of the drift', () => {
    const drifting = (cassette: readonly (number | null)[]): string[] =>
      gearWarnings(clean, madeBike, { measured: { ...asWritten, cassette }, rolloutMm: 2100, drifts: true }).map(
        ({ code }) => code,
      );
    const bySome = (teeth: Readonly<Record<number, number>>) => madeBike.cassette.map((own) => teeth[own] ?? own);
    expect(drifting(bySome({ 30: 31 }))).toEqual([]);
    expect(drifting(bySome({ 30: 32 }))).toEqual(['teeth-differ']);
    expect(drifting(bySome({ 26: 25, 30: 31 }))).toEqual(['teeth-differ']);
    expect(codes(clean, madeBike, { ...asWritten, cassette: bySome({ 30: 31 }) }, 2100, 2100)).toEqual([
      'teeth-differ',
    ]);
  });

  it('says of cogs and of rings by themselves how records with other teeth were read', () => {
    const message = (row: Partial<Parameters<typeof gearRecords>[0][number]>): string => {
      const records = gearRecords([{ timeS: 0, rearTeeth: 12, frontTeeth: 46, ...row }]);
      const odd = madeLog({ speedMps: [5], cadenceRpm: [80], gearRecords: records });
      return warned(odd, madeDoubleBike, { ...asWritten, chainrings: [34, 50] }, 2100, 2100)[0].message;
    };
    expect(message({ rear: 9 })).toMatch(/: cogs 12, read by their position; chainrings 46, read by their order\.$/);
    expect(message({ front: 2 })).toMatch(/: cogs 12, read by their order; chainrings 46, read by their position\.$/);
    expect(message({ rearTeeth: 13 })).toMatch(/does not have: chainrings 46, read by their order\.$/);
  });
});

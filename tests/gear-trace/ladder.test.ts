import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bikeSchema } from '../../src/drivetrain/bike.ts';
import { guessFromLadder } from '../../src/gear-trace/guess/guess-from-ladder.ts';
import { ladderWords } from '../../src/gear-trace/guess/ladder-words.ts';
import type { DevelopmentHistogram } from '../../src/gear-trace/ladder/development-histogram.ts';
import { fitLadder } from '../../src/gear-trace/ladder/fit-ladder.ts';
import { fitUncommandedGears } from '../../src/gear-trace/ladder/fit-uncommanded-gears.ts';
import { bandContrast, ladderPeaks, smoothed } from '../../src/gear-trace/ladder/ladder-peaks.ts';
import { sharpestHistogram } from '../../src/gear-trace/ladder/sharpest-histogram.ts';
import { speedFollowsCadence } from '../../src/gear-trace/ladder/speed-follows-cadence.ts';
import { steadyHistogram } from '../../src/gear-trace/ladder/steady-histogram.ts';
import { pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { MadeRide, madeBike, madeLog } from './made-ride.ts';
import { rideAllCogs } from './ride-all-cogs.ts';

const random = seededRandom(1, 'ladder');

/** A histogram of peaks 0.8 % wide at the given developments, so many seconds each. */
function peaked(developmentsM: readonly number[], secondsEach = 300, noise = 0.008): DevelopmentHistogram {
  const width = 0.004;
  const lowest = Math.log(0.6);
  const seconds = new Float64Array(Math.ceil((Math.log(14) - lowest) / width));
  for (const development of developmentsM)
    for (let n = 0; n < secondsEach; n++)
      seconds[Math.floor((Math.log(development) + noise * random.normal() - lowest) / width)]++;
  return { lowest, width, seconds, totalS: developmentsM.length * secondsEach };
}
const smooth: DevelopmentHistogram = (() => {
  const flat = peaked([], 0);
  flat.seconds.forEach((_, b) => {
    const y = flat.lowest + (b + 0.5) * flat.width;
    flat.seconds[b] = 40 * Math.exp(-(((y - Math.log(5)) / 0.3) ** 2) / 2);
  });
  return { ...flat, totalS: flat.seconds.reduce((a, b) => a + b, 0) };
})();

const cassette = madeBike.cassette;
const developments = cassette.map((cog) => (2.1 * 40) / cog);
const logRatio = Float64Array.from(cassette, (cog) => Math.log(40 / cog));

describe('steadyHistogram', () => {
  it('holds the steady seconds at their development and leaves shifts and freewheeling out', () => {
    const ride = new MadeRide().pedal(120).coast(30, 40).pedal(5).shift(5).pedal(120);
    const log = ride.log();
    const histogram = steadyHistogram(log, pedallingSamples(log), 0);
    expect(histogram.totalS).toBeGreaterThan(200);
    expect(histogram.totalS).toBeLessThan(245);
    expect(histogram.seconds.reduce((a, b) => a + b, 0)).toBeCloseTo(histogram.totalS, 9);
    const near = (development: number): number =>
      histogram.seconds.reduce((sum, seconds, b) => {
        const y = histogram.lowest + (b + 0.5) * histogram.width;
        return Math.abs(y - Math.log(development)) < 0.04 ? sum + seconds : sum;
      }, 0);
    expect(near(developments[4]) + near(developments[5])).toBeGreaterThan(0.97 * histogram.totalS);
  });

  it('is empty without cadence', () => {
    const log = madeLog({ speedMps: Array(30).fill(5), cadenceRpm: Array(30).fill(Number.NaN) });
    expect(steadyHistogram(log, pedallingSamples(log), 0).totalS).toBe(0);
  });
});

describe('smoothed', () => {
  it('spreads the seconds without losing any', () => {
    const histogram = peaked([4, 5, 6]);
    const area = smoothed(histogram).reduce((a, value) => a + value, 0) * histogram.width;
    expect(area).toBeCloseTo(histogram.totalS, 6);
  });
});

describe('ladderPeaks', () => {
  it('finds every gear that was ridden for long, rising, each with its seconds', () => {
    const rungs = ladderPeaks(peaked(developments));
    const found = rungs.map(({ logDevelopment }) => Math.exp(logDevelopment));
    expect(found.length).toBe(developments.length);
    [...developments]
      .sort((a, b) => a - b)
      .forEach((development, i) => {
        expect(Math.abs(found[i] / development - 1)).toBeLessThan(0.004);
        expect(rungs[i].seconds).toBeGreaterThan(280);
      });
  });

  it('leaves out what was ridden for a few seconds only, and finds one hump in a smooth ride', () => {
    const both = peaked([4, 5]);
    const brief = peaked([6], 10);
    brief.seconds.forEach((s, b) => {
      both.seconds[b] += s;
    });
    expect(ladderPeaks(both).length).toBe(2);
    expect(ladderPeaks(smooth).length).toBe(1);
    expect(ladderPeaks(peaked([], 0))).toEqual([]);
  });
});

describe('bandContrast', () => {
  it('parts gears from a speed without any', () => {
    expect(bandContrast(peaked(developments))).toBeGreaterThan(0.5);
    expect(Math.abs(bandContrast(smooth))).toBeLessThan(0.02);
  });

  it('does not change with the scale of the rollout', () => {
    const shifted = peaked(developments.map((development) => development * 1.083));
    expect(bandContrast(shifted)).toBeCloseTo(bandContrast(peaked(developments)), 1);
  });
});

describe('fitLadder', () => {
  const scales = Array.from({ length: 51 }, (_, i) => Math.log(2.1) - 0.1 + i * 0.004);

  it('finds the scale, the noise and the share of each gear', () => {
    const fit = fitLadder(peaked(developments), logRatio, scales, () => 0);
    expect(fit.logRollout).toBeCloseTo(Math.log(2.1), 2);
    expect(fit.noise).toBeLessThanOrEqual(0.012);
    for (const share of fit.share) expect(Math.abs(share - 1 / 9)).toBeLessThan(0.02);
    expect(fit.share.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
  });

  it('moves with the rollout: 3 % larger developments, 3 % larger scale', () => {
    const fit = fitLadder(peaked(developments.map((d) => d * 1.03)), logRatio, scales, () => 0);
    expect(Math.abs(fit.logRollout - Math.log(2.1 * 1.03))).toBeLessThan(0.006);
  });
});

describe('fitUncommandedGears', () => {
  const ride = rideAllCogs();
  const log = ride.log();
  const sharpest = sharpestHistogram(log, pedallingSamples(log));

  it('places every gear within 1 %, whether the bike file gives the rollout or not', () => {
    for (const expected of [Math.log(2.1), Math.log(2.05), Number.NaN]) {
      const model = fitUncommandedGears(sharpest, madeBike, expected);
      expect([model.rings, model.cogs]).toEqual([1, 9]);
      model.logDevelopment.forEach((y, cog) => {
        expect(Math.abs(y - Math.log(developments[cog])), `cog ${cog}, rollout ${expected}`).toBeLessThan(0.01);
      });
    }
  });
});

describe('sharpestHistogram', () => {
  it('undoes the lag of a speed that is shown late', () => {
    const ride = rideAllCogs(2);
    const log = ride.log();
    // a first-order lag of 2 s, as satellite speed has it
    const late = log.speedMps.slice();
    for (let i = 1; i < late.length; i++)
      late[i] = late[i - 1] + (log.speedMps[i] - late[i - 1]) * (1 - Math.exp(-1 / 2));
    const lagging = { ...log, speedMps: late };
    const { speedLagS, whyNone } = sharpestHistogram(lagging, pedallingSamples(lagging));
    expect(whyNone).toBeNull();
    expect(speedLagS).toBeGreaterThanOrEqual(1);
    expect(speedLagS).toBeLessThanOrEqual(3);
  });

  it('says why there is nothing to see', () => {
    const short = new MadeRide().pedal(40).log();
    expect(sharpestHistogram(short, pedallingSamples(short)).whyNone).toMatch(/steady pedalling/);
    const computed = { ...rideAllCogs().log(), speedSource: 'computed' } as const;
    expect(sharpestHistogram(computed, pedallingSamples(computed)).whyNone).toMatch(/computed/);
  });
});

describe('speedFollowsCadence', () => {
  const pushing = (speedOf: (cadence: number, i: number) => number) => {
    const cadence = Array.from({ length: 600 }, (_, i) => Math.round(80 + 12 * Math.sin(i / 5)));
    return madeLog({ speedMps: cadence.map(speedOf), cadenceRpm: cadence, powerW: cadence.map(() => 200) });
  };
  const follows = (log: ReturnType<typeof pushing>): boolean => speedFollowsCadence(log, pedallingSamples(log), 0);

  it('is true for a chain, false for a speed that has nothing to do with it or follows too much', () => {
    expect(follows(pushing((rpm) => (rpm * 5) / 60))).toBe(true);
    expect(follows(pushing((_, i) => 6 + 0.05 * Math.sin(i / 50)))).toBe(false);
    expect(follows(pushing((rpm) => 7 * (rpm / 80) ** 1.3))).toBe(false);
  });

  it('is true where too little changes to tell', () => {
    expect(
      follows(madeLog({ speedMps: Array(300).fill(5), cadenceRpm: Array(300).fill(80), powerW: Array(300).fill(150) })),
    ).toBe(true);
  });
});

describe('guessFromLadder', () => {
  const rungsOf = (bike: { ring: number; cogs: number[] }, rolloutM = 2.12) =>
    bike.cogs
      .map((cog) => ({ logDevelopment: Math.log((rolloutM * bike.ring) / cog), seconds: 400 }))
      .sort((a, b) => a.logDevelopment - b.logDevelopment);

  it('finds cogs whose ratios are the rungs, up to a common scale', () => {
    const cogs = [11, 13, 15, 17, 19, 21, 24, 28, 32];
    const rungs = rungsOf({ ring: 42, cogs });
    const guess = guessFromLadder(rungs);
    expect(guess).not.toBeNull();
    const { bike, seenCogs } = guess as NonNullable<typeof guess>;
    for (const { logDevelopment } of rungs) {
      const nearest = Math.min(
        ...bike.chainrings.flatMap((ring) =>
          seenCogs.map((cog) => Math.abs(Math.log((((bike.rolloutMm ?? 0) / 1000) * ring) / cog) - logDevelopment)),
        ),
      );
      expect(nearest).toBeLessThan(0.012);
    }
    expect(seenCogs.length).toBeLessThanOrEqual(cogs.length);
    expect([...bike.cassette].sort((a, b) => a - b)).toEqual(bike.cassette);
  });

  it('takes a wide ladder of one ring for one ring, and its cogs up to a common scale', () => {
    const cogs = [12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51];
    const guess = guessFromLadder(rungsOf({ ring: 32, cogs }, 2.29));
    expect(guess?.bike.chainrings.length).toBe(1);
    expect(guess?.seenCogs).toEqual(cogs);
    expect(guess?.ringsLikelihood).toBeGreaterThan(0.8);
  });

  it('takes rungs that no one cassette has for two rings, in the right proportion', () => {
    const small = rungsOf({ ring: 34, cogs: [15, 17, 19, 21, 24, 28, 34] }, 2.1);
    const large = rungsOf({ ring: 50, cogs: [11, 12, 13, 14, 15, 17, 19] }, 2.1);
    const guess = guessFromLadder([...small, ...large].sort((a, b) => a.logDevelopment - b.logDevelopment));
    expect(guess?.bike.chainrings).toEqual([34, 50]);
    expect(guess?.seenCogs).toEqual([11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 34]);
  });

  it('is less sure of few rungs than of many, and says so in words', () => {
    const many = guessFromLadder(rungsOf({ ring: 32, cogs: [10, 12, 14, 16, 18, 21, 24, 28, 33, 39] }, 2.29));
    const few = guessFromLadder(rungsOf({ ring: 32, cogs: [24, 28, 33, 39] }, 2.29));
    if (!many || !few) throw new Error('both ladders have drivetrains');
    expect(few.likelihood).toBeLessThan(0.7 * many.likelihood);
    expect(ladderWords(many, [])).not.toMatch(/cannot be told|Other cogs/);
    expect(ladderWords(few, [])).toMatch(/Other cogs explain the ratios too: these are \d+ % likely/);
    expect(ladderWords({ ...few, ringsLikelihood: 0.55 }, [])).toMatch(
      /One ring cannot be told from two for sure here \(55 % likely\)/,
    );
  });

  it('is null with fewer than three rungs', () => {
    expect(guessFromLadder(rungsOf({ ring: 40, cogs: [13, 15] }))).toBeNull();
  });

  it('is always a bike that could stand in a bike file, whatever the rungs', () => {
    const rung = fc.record({
      logDevelopment: fc.double({ min: Math.log(0.5), max: Math.log(14), noNaN: true }),
      seconds: fc.integer({ min: 1, max: 3000 }),
    });
    fc.assert(
      fc.property(fc.array(rung, { minLength: 3, maxLength: 14 }), (rungs) => {
        const guess = guessFromLadder(rungs);
        if (guess) expect(bikeSchema.safeParse(guess.bike).success).toBe(true);
      }),
      { numRuns: 40 },
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { gearCommands } from '../../src/gear-trace/commands/gear-commands.ts';
import { gearEmission, ratioDeviation } from '../../src/gear-trace/decoding/gear-emission.ts';
import { ringKernel } from '../../src/gear-trace/decoding/gear-kernels.ts';
import { type GearStates, gearStates } from '../../src/gear-trace/decoding/gear-states.ts';
import { GearTransition } from '../../src/gear-trace/decoding/gear-transition.ts';
import { regainShares } from '../../src/gear-trace/decoding/regain-shares.ts';
import { CHANCE, OPEN_TO_MISSES } from '../../src/gear-trace/decoding/transition-chances.ts';
import { situations } from '../../src/gear-trace/decoding/transition-situation.ts';
import { type GearModel, usualNoise } from '../../src/gear-trace/gear-model.ts';
import { logDevelopmentColumn, pedallingSamples } from '../../src/gear-trace/samples/pedalling-samples.ts';
import { withoutRecords } from '../accuracy/without-records.ts';
import { gearRecords, madeBike, madeDoubleBike, madeLog } from './made-ride.ts';

describe('gearStates', () => {
  it('holds every gear twice and the lost drive last', () => {
    expect(gearStates(2, 11)).toEqual({ rings: 2, cogs: 11, gears: 22, count: 45, lost: 44 });
  });
});

describe('ratioDeviation', () => {
  it('adds the rounding of whole cadences to the noise, and is NaN without a ratio', () => {
    const log = madeLog({ speedMps: [5, 5, 5, 5, 5, 5, 0], cadenceRpm: Array(7).fill(58) });
    const deviation = ratioDeviation(log, pedallingSamples(log), usualNoise(0.012));
    expect(deviation[1]).toBeCloseTo(Math.hypot(0.012, 0.29 / 58), 3);
    expect(deviation[1]).toBeGreaterThan(0.012);
    expect(deviation[6]).toBeNaN();
  });

  it('is wider at low speed where satellites err by metres a second', () => {
    const at = (mps: number): number => {
      const log = madeLog({ speedMps: Array(5).fill(mps), cadenceRpm: Array(5).fill(80) });
      return ratioDeviation(log, pedallingSamples(log), { relative: 0.01, absoluteMps: 0.06, independence: 0.5 })[2];
    };
    expect(at(2) ** 2 - at(6) ** 2).toBeCloseTo(0.03 ** 2 - 0.01 ** 2, 9);
  });

  it('is wider while speed changes, and at a low cadence', () => {
    const at = (speedMps: number[], cadence: number): number => {
      const log = madeLog({ speedMps, cadenceRpm: speedMps.map(() => cadence) });
      return ratioDeviation(log, pedallingSamples(log), usualNoise(0.01))[2];
    };
    expect(at([4, 4.5, 5, 5.5, 6], 80)).toBeGreaterThan(at([5, 5, 5, 5, 5], 80));
    expect(at([5, 5, 5, 5, 5], 40)).toBeGreaterThan(at([5, 5, 5, 5, 5], 80));
  });
});

describe('gearEmission', () => {
  const model: GearModel = {
    rings: 1,
    cogs: 3,
    logDevelopment: Float64Array.of(Math.log(6), Math.log(5), Math.log(4)),
    speedLagS: 0,
    noise: usualNoise(0.01),
    logRollout: Math.log(2.1),
  };
  const states = gearStates(1, 3);
  const rowFor = (developmentM: number, powerW: number): number[] => {
    const log = madeLog({
      speedMps: Array(5).fill((developmentM * 80) / 60),
      cadenceRpm: Array(5).fill(80),
      powerW: Array(5).fill(powerW),
    });
    const samples = pedallingSamples(log);
    const rows = gearEmission(log, model, states, {
      logDevelopment: logDevelopmentColumn(log, samples, 0),
      deviation: ratioDeviation(log, samples, model.noise),
    });
    return [...rows.subarray(2 * states.count, 3 * states.count)];
  };
  const likeliest = (row: number[]): number => row.indexOf(Math.max(...row));

  it('finds the gear whose development is ridden', () => {
    [6, 5, 4].forEach((development, gear) => {
      expect(likeliest(rowFor(development, 180))).toBe(gear);
    });
  });

  it('reads a ratio above a gear without power as freewheeling, never in a higher gear', () => {
    expect(likeliest(rowFor(4.5, 0))).toBe(states.gears + 2);
    const [, , , freeOfHighest] = rowFor(4.5, 0);
    expect(freeOfHighest).toBeLessThan(rowFor(4.5, 0)[5]);
  });

  it('reads a ratio below every gear without power as lost drive', () => {
    expect(likeliest(rowFor(2.5, 0))).toBe(states.lost);
  });

  it('says nothing where there is no ratio', () => {
    expect(rowFor(0, 180).every((value) => value === 0)).toBe(true);
  });
});

describe('regainShares', () => {
  const states = gearStates(2, 9);
  const shares = (ring: number, cog: number): Float64Array =>
    regainShares(states, { cog, ring, freshCog: false, freshRing: false, turning: true, dtClass: 0 });
  const share = (ring: number, cog: number, of: readonly [number, number]): number =>
    shares(ring, cog)[of[0] * states.cogs + of[1]];

  it('are of one chain, wherever it was sent', () => {
    for (const ring of [-1, 0, 1])
      for (const cog of [-1, 0, 4, 8]) {
        expect(shares(ring, cog).length).toBe(states.gears);
        expect(shares(ring, cog).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
      }
  });

  it('lie mostly on the commanded ring and cog, and evenly on all others', () => {
    expect(share(1, 4, [1, 4])).toBeGreaterThan(0.5);
    expect(share(1, 4, [1, 4])).toBeGreaterThan(5 * share(1, 4, [0, 4]));
    expect(share(1, 4, [0, 4])).toBeGreaterThan(5 * share(1, 4, [0, 3]));
    expect(share(1, 4, [1, 0])).toBeCloseTo(share(1, 4, [1, 8]), 12);
    // a ring or cog that nobody recorded may be any
    expect(share(-1, 4, [0, 4])).toBeCloseTo(share(-1, 4, [1, 4]), 12);
    expect(share(-1, -1, [0, 0])).toBeCloseTo(1 / states.gears, 12);
  });
});

describe('ringKernel', () => {
  const chances = (rings: number, key: { target: number; freshRing?: boolean }): number[] => [
    ...ringKernel(
      rings,
      {
        cog: -1,
        ring: key.target,
        freshCog: false,
        freshRing: false,
        turning: true,
        dtClass: 0,
        transposed: false,
        ...key,
      },
      OPEN_TO_MISSES,
    ),
  ];

  it.each([2, 3])('follows a recorded ring with the same chance on %i rings', (rings) => {
    expect(chances(rings, { target: 1, freshRing: true })[1]).toBeCloseTo(CHANCE.recordedRingFresh, 12);
    expect(chances(rings, { target: 1 })[1]).toBeCloseTo(CHANCE.recordedRing, 12);
  });

  it.each([2, 3])('leaves the ring as often on %i rings where none is recorded, for any of the others', (rings) => {
    const [stays, ...others] = chances(rings, { target: -1 }).slice(0, rings);
    expect(1 - stays).toBeCloseTo(OPEN_TO_MISSES.unrecordedRing, 12);
    for (const chance of others) expect(chance).toBeCloseTo(OPEN_TO_MISSES.unrecordedRing / (rings - 1), 12);
  });
});

describe('GearTransition', () => {
  const records = gearRecords([
    { timeS: 0, rear: 5, front: 2 },
    { timeS: 6, rear: 3, front: 2 },
    { timeS: 14, rear: 3, front: 1 },
    { timeS: 22, rear: 8, front: 1 },
  ]);
  const cadence = [80, 80, 80, 80, 80, 80, 80, 80, 0, 0, 0, 80, 80, 80, 80, 80, 80, 0, 0, 80, 80, 80, 80, 80, 80, 80];
  const times = cadence.map((_, i) => (i < 20 ? i : i + 40));
  const log = madeLog({ speedMps: cadence.map(() => 5), cadenceRpm: cadence, timeS: times, gearRecords: records });
  const samples = pedallingSamples(log);
  const transitionOf = (states: GearStates, bike: Bike, ridden = log): GearTransition =>
    new GearTransition(states, situations(gearCommands(ridden, bike, samples), log.timeS, samples));

  it.each([
    [madeBike, log],
    [madeDoubleBike, log],
    [madeDoubleBike, withoutRecords(log)],
  ])('keeps the sum of probabilities at every step: %#', (bike, ridden) => {
    const states = gearStates(bike.chainrings.length, bike.cassette.length);
    const transition = transitionOf(states, bike, ridden);
    const to = new Float64Array(states.count);
    for (let t = 1; t < times.length; t++)
      for (let from = 0; from < states.count; from++) {
        const start = new Float64Array(states.count);
        start[from] = 1;
        transition.forward(t, start, to);
        expect(to.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 10);
        expect(Math.min(...to)).toBeGreaterThanOrEqual(0);
      }
  });

  it.each([
    ['with gear records', log],
    ['without', withoutRecords(log)],
  ])('goes backward by the transpose of going forward, %s', (_, ridden) => {
    const states = gearStates(2, madeDoubleBike.cassette.length);
    const transition = transitionOf(states, madeDoubleBike, ridden);
    const vector = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
      minLength: states.count,
      maxLength: states.count,
    });
    fc.assert(
      fc.property(vector, vector, fc.integer({ min: 1, max: times.length - 1 }), (a, b, t) => {
        const ahead = new Float64Array(states.count);
        const back = new Float64Array(states.count);
        transition.forward(t, Float64Array.from(a), ahead);
        transition.backward(t, Float64Array.from(b), back);
        const dot = (x: ArrayLike<number>, y: ArrayLike<number>): number =>
          Array.from(x).reduce((sum, value, i) => sum + value * y[i], 0);
        expect(dot(ahead, b)).toBeCloseTo(dot(a, back), 8);
      }),
      { numRuns: 60 },
    );
  });

  it('takes a part of a change of ring back on the cassette where nothing is recorded, and only there', () => {
    const states = gearStates(2, madeDoubleBike.cassette.length);
    const lands = (ridden: typeof log, ring: number, cog: number): number => {
      const start = new Float64Array(states.count);
      start[4] = 1;
      const to = new Float64Array(states.count);
      transitionOf(states, madeDoubleBike, ridden).forward(2, start, to);
      const gear = ring * states.cogs + cog;
      return to[gear] + to[states.gears + gear];
    };
    const blind = withoutRecords(log);
    expect(lands(blind, 1, 6)).toBeGreaterThan(2 * lands(blind, 1, 2));
    expect(lands(blind, 1, 6)).toBeGreaterThan(0.5 * lands(blind, 1, 4));
    expect(lands(log, 1, 6)).toBeLessThan(0.1 * lands(log, 1, 4));
    // one step on the cassette is commoner than any of them
    expect(lands(blind, 0, 5)).toBeGreaterThan(10 * lands(blind, 1, 6));
  });

  it('follows a fresh command rather than an old one, and hardly moves while the cranks stand', () => {
    const states = gearStates(1, 9);
    const transition = transitionOf(states, madeBike);
    const arrives = (t: number, from: number, target: number): number => {
      const start = new Float64Array(states.count);
      start[from] = 1;
      const to = new Float64Array(states.count);
      transition.forward(t, start, to);
      return to[target] + to[states.gears + target];
    };
    expect(arrives(7, 4, 6)).toBeGreaterThan(10 * arrives(4, 3, 4));
    expect(arrives(7, 4, 6)).toBeGreaterThan(5 * arrives(10, 4, 6));
    // a command is weak evidence: staying must remain likely
    expect(arrives(7, 4, 4)).toBeGreaterThan(0.3);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CogRung } from '../../src/gear-trace/guess/cog-rungs.ts';
import { ringLevels } from '../../src/gear-trace/guess/ring-levels.ts';
import { ringsOfLevels } from '../../src/gear-trace/guess/rings-of-levels.ts';

const cassette = [11, 13, 15, 17, 20, 23, 26, 30, 34];
const level = (ring: number): number => Math.log(ring * 2.1);
/** Where a cog is pedalled on a ring, while another was recorded or its teeth are written wrong. */
const rung = (ring: number, cog: number, { on = cog, seconds = 100, written = cassette[cog] } = {}): CogRung => ({
  cog,
  onRing: level(ring) + Math.log(written / cassette[on]),
  seconds,
});
const onAll = (ring: number): CogRung[] => cassette.map((_, cog) => rung(ring, cog));
const ratios = (levels: readonly number[] = []): number[] => levels.map((at) => Math.exp(at) / 2.1);

describe('ringLevels', () => {
  it.each([[[40]], [[34, 50]], [[42, 52]], [[22, 32, 44]]])(
    'finds the rings %j that all cogs were pedalled on',
    (rings) => {
      const shown = ringLevels(rings.flatMap(onAll), cassette);
      expect(ratios(shown?.levels).map(Math.round)).toEqual(rings);
      expect(shown?.likelihood).toBeGreaterThan(0.99);
      expect(shown?.astrayS).toBe(0);
    },
  );

  it('finds a second ring that was seldom pedalled, on a few cogs only', () => {
    const few = [rung(50, 0, { seconds: 20 }), rung(50, 2, { seconds: 40 }), rung(50, 4, { seconds: 25 })];
    expect(ratios(ringLevels([...onAll(34), ...few], cassette)?.levels).map(Math.round)).toEqual([34, 50]);
  });

  it('takes a chain that stays a cog or two off for no ring', () => {
    const byOne = [1, 2, 3, 4, 5, 6].map((cog) => rung(40, cog, { on: cog - 1 }));
    const byTwo = [2, 5].map((cog) => rung(40, cog, { on: cog - 2, seconds: 60 }));
    const missed = [...byOne, ...byTwo];
    const shown = ringLevels([...onAll(40), ...missed], cassette);
    expect(shown?.levels).toHaveLength(1);
    expect(shown?.likelihood).toBeGreaterThan(0.85);
    expect(shown?.astrayS).toBe(0);
  });

  it('takes cogs whose recorded teeth are wrong for no ring', () => {
    const wrong = [12, 12, 14, 18, 21, 25, 27, 28, 32];
    const rungs = wrong.map((written, cog) => rung(40, cog, { written }));
    expect(ringLevels(rungs, wrong)?.levels).toHaveLength(1);
  });

  it('takes a recorder that was set to a narrower cassette for no ring', () => {
    const narrow = [11, 13, 15, 17, 20, 23, 24, 25, 28];
    const rungs = narrow.map((written, cog) => rung(40, cog, { written }));
    expect(ringLevels(rungs, narrow)?.levels).toHaveLength(1);
  });

  it('makes no ring of what one cog alone shows, but counts it as astray', () => {
    const shown = ringLevels([...onAll(34), rung(50, 4, { seconds: 80 })], cassette);
    expect(shown?.levels).toHaveLength(1);
    expect(shown?.astrayS).toBe(80);
  });

  it('is in doubt where a second ring hardly shows', () => {
    const few = [rung(50, 0, { seconds: 25 }), rung(50, 2, { seconds: 28 })];
    expect(ringLevels([...onAll(34), ...few], cassette)?.likelihood).toBeLessThan(0.8);
  });

  it('takes two cogs that do not agree for one ring', () => {
    const apart = [rung(40, 0), rung(40, 5, { written: 30 })];
    expect(ringLevels(apart, cassette)?.levels).toHaveLength(1);
  });

  it('is null with too little to go by', () => {
    expect(ringLevels([], cassette)).toBeNull();
    expect(ringLevels([rung(40, 0, { seconds: 50 }), rung(40, 1, { seconds: 50 })], cassette)).toBeNull();
    expect(ringLevels([rung(40, 0, { seconds: 500 })], cassette)).toBeNull();
  });
});

describe('ringsOfLevels', () => {
  it('finds rings with the ratio of the levels at the wheel of a bicycle', () => {
    const pair = fc.tuple(
      fc.integer({ min: 36, max: 54 }),
      fc.integer({ min: 8, max: 16 }),
      fc.double({ min: 2, max: 2.3, noNaN: true }),
    );
    fc.assert(
      fc.property(pair, ([large, apart, rolloutM]) => {
        const small = large - apart;
        const found = ringsOfLevels([Math.log(small * rolloutM), Math.log(large * rolloutM)]);
        const [a, b] = found?.chainrings ?? [];
        expect(Math.abs(Math.log(b / a / (large / small)))).toBeLessThan(0.015);
        // every gear has the development that was ridden
        expect(Math.abs(Math.log(((found?.rolloutMm ?? 0) * b) / (1000 * rolloutM * large)))).toBeLessThan(0.01);
      }),
    );
    expect(ringsOfLevels([level(34), level(50)])?.chainrings).toEqual([34, 50]);
  });

  it('is null where the speed is in another unit', () => {
    expect(ringsOfLevels([34, 50].map((ring) => level(ring) + Math.log(3.6)))).toBeNull();
  });
});

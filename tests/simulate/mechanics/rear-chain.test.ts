import { mean } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../src/numeric/seeded-random.ts';
import { RearChain } from '../../../src/simulate/mechanics/rear-chain.ts';
import { exactBike, teeth } from './sound-bike.ts';

const LINKS = 32;

/** Crank turns (32-tooth ring) until the cog asked for drives, for many chains; Infinity after 20 turns. */
function turnsToArrive(
  changes: Parameters<typeof exactBike>[0],
  from: number,
  to: number,
  errorMm = 0,
  tensionN = 300,
): number[] {
  return Array.from({ length: 60 }, (_, seed) => {
    const condition = exactBike(changes);
    const chain = new RearChain(condition, teeth, from, seededRandom(seed, 'chain'));
    const pulleyMm = to * condition.pitchMm + errorMm;
    let turns = 0;
    while (chain.driveCog !== to && turns < 20 && chain.lost === null) {
      chain.step(LINKS / 20, tensionN, pulleyMm, 0);
      turns += 1 / 20;
    }
    return chain.driveCog === to ? turns : Number.POSITIVE_INFINITY;
  });
}

const missing = (turns: number[]): number => turns.filter((t) => t > 5).length / turns.length;
const median = (turns: number[]): number => [...turns].sort((a, b) => a - b)[turns.length >> 1];

describe('RearChain', () => {
  it('follows a pulley in its place within about one crank turn, both ways', () => {
    for (const [from, to] of [
      [4, 5],
      [5, 4],
      [10, 11],
      [1, 0],
    ]) {
      const turns = turnsToArrive({}, from, to);
      expect(Math.max(...turns)).toBeLessThan(2);
      expect(median(turns)).toBeLessThan(1.2);
    }
  });

  it('does not move while no link runs', () => {
    const chain = new RearChain(exactBike(), teeth, 5, seededRandom(1));
    for (let i = 0; i < 1000; i++) chain.step(0, 0, 6 * 3.65, 0.5);
    expect(chain.driveCog).toBe(5);
  });

  it('misses the larger cog when the pulley falls short of it, and hardly notices on the way to a smaller one', () => {
    const short = -0.34 * 3.65;
    expect(missing(turnsToArrive({}, 4, 5, short))).toBeGreaterThan(0.3);
    expect(missing(turnsToArrive({}, 5, 4, short))).toBe(0);
    expect(missing(turnsToArrive({}, 5, 4, 0.44 * 3.65))).toBeGreaterThan(0.3);
  });

  it('gets slower the harder the chain is pulled', () => {
    const short = -0.2 * 3.65;
    const soft = turnsToArrive({}, 6, 7, short, 100).map((t) => Math.min(t, 20));
    const hard = turnsToArrive({}, 6, 7, short, 1600).map((t) => Math.min(t, 20));
    expect(mean(hard) as number).toBeGreaterThan(1.3 * (mean(soft) as number));
  });

  it('is slow both ways on every cog when the pulley hangs far below, without missing outright', () => {
    for (const [from, to] of [
      [2, 3],
      [8, 9],
      [6, 5],
    ]) {
      const far = turnsToArrive({ gapMm: 18 }, from, to);
      expect(median(far)).toBeGreaterThan(1.5 * median(turnsToArrive({}, from, to)));
      expect(missing(far)).toBeLessThan(0.1);
    }
  });

  it('is hindered only on the way to the largest cogs when the pulley is too near', () => {
    const near = { gapMm: 0.3 };
    expect(median(turnsToArrive(near, 10, 11))).toBeGreaterThan(1.3 * median(turnsToArrive({}, 10, 11)));
    expect(median(turnsToArrive(near, 3, 4))).toBeLessThan(1.15 * median(turnsToArrive({}, 3, 4)));
  });

  it('goes past an end cog when the pulley stands far beyond it, never when it stands right', () => {
    const lost = (errorMm: number, from: number, to: number): number =>
      turnsToArrive({}, from, to, errorMm).filter((t) => t === Number.POSITIVE_INFINITY).length;
    expect(lost(0.6 * 3.65, 10, 11)).toBe(60);
    expect(lost(-0.6 * 3.65, 1, 0)).toBe(60);
    expect(lost(0.1 * 3.65, 10, 11) + lost(-0.1 * 3.65, 1, 0)).toBe(0);
  });

  it('moves by itself on rough ground when the pulley rests far off its cog, not when it rests right', () => {
    const moved = (errorMm: number): number =>
      Array.from({ length: 20 }, (_, seed) => {
        const chain = new RearChain(exactBike(), teeth, 6, seededRandom(seed, 'ghost'));
        let moves = 0;
        for (let i = 0; i < 32 * 300; i++) {
          chain.step(1.2, 200, 6 * 3.65 + errorMm, 0.8);
          if (chain.driveCog !== 6) moves = 1;
        }
        return moves;
      }).filter(Boolean).length;
    expect(moved(0)).toBe(0);
    expect(moved(-0.4 * 3.65)).toBeGreaterThan(10);
  });

  it('can be put back by hand', () => {
    const chain = new RearChain(exactBike(), teeth, 10, seededRandom(3));
    for (let i = 0; i < 400 && chain.lost === null; i++) chain.step(1.6, 100, 11.7 * 3.65, 0);
    expect(chain.lost).toBe('past-largest');
    chain.refit(11);
    expect([chain.lost, chain.driveCog, chain.entryCog]).toEqual([null, 11, 11]);
  });
});

import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { ImaginedRides } from '../../src/diagnosis/check-ride/imagined-rides.ts';
import { planCheckRide } from '../../src/diagnosis/check-ride/plan-check-ride.ts';
import type { Expectation, PlannedShifts } from '../../src/diagnosis/posterior/look-ahead.ts';
import type { Particle } from '../../src/diagnosis/posterior/particles.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

const cassette = [10, 12, 14, 16, 18, 21, 24, 28, 33, 39];
const USUAL = 0.05;

/** How often shifts on a pair of cogs, by its smaller cog (cassette index), go wrong with the one cause; with the other they always do as usual. */
type Pairs = Readonly<Record<number, { readonly soft?: number; readonly firm?: number }>>;

const sound = { cause: 'no-fault' } as Particle;
const faulty = { cause: 'cable-friction' satisfies Cause } as Particle;
const particles = Array.from({ length: 160 }, (_, i) => (i % 2 === 0 ? sound : faulty));
const each = (faultyRate: number, soundRate: number): Float64Array =>
  Float64Array.from(particles, (particle) => (particle === faulty ? faultyRate : soundRate));

const lookAt = (pairs: Pairs) => ({
  particles,
  expect: ({ cog, larger, firm }: Omit<PlannedShifts, 'count'>): Expectation => {
    const rates = pairs[larger ? cog - 1 : cog] ?? {};
    return { trouble: each((firm ? rates.firm : rates.soft) ?? USUAL, USUAL), drop: each(0.001, 0.001) };
  },
});

/** The blocks of the plan, each by its smaller cog and how hard it is pedalled. */
function blocks(pairs: Pairs): string[] {
  const kept = { unseen: new Set<number>(), atRisk: new Set<never>() };
  const plan = planCheckRide(lookAt(pairs), cassette, new Float64Array(cassette.length).fill(1), kept);
  return plan.blocks
    .filter(({ direction }) => direction === 'to-larger')
    .map(({ fromTeeth, load }) => `${fromTeeth} ${load}`);
}

describe('the blocks of a check ride', () => {
  it('are firm only where that tells plainly more than soft ones, whichever pair comes first', () => {
    // one pair tells nearly all here, so that nothing is left to add: the soft ones too
    const [soft, littleMore] = [{ soft: 0.75 }, { firm: 0.9 }];
    expect(blocks({ 1: littleMore, 5: soft })).toEqual(['21 soft']);
    expect(blocks({ 1: soft, 5: littleMore })).toEqual(['12 soft']);
    expect(blocks({ 3: { ...soft, ...littleMore } })).toEqual(['16 soft']);
    // 0.6 bits against 1
    const [milder, plainlyMore] = [{ soft: 0.3 }, { firm: 0.85 }];
    expect(blocks({ 1: plainlyMore, 5: milder })).toEqual(['12 firm']);
    expect(blocks({ 1: milder, 5: plainlyMore })).toEqual(['21 firm']);
    expect(blocks({ 3: { ...milder, ...plainlyMore } })).toEqual(['16 firm']);
  });

  it('are no more than add something worth the effort', () => {
    expect(blocks({ 3: { soft: 0.2 } })).toEqual(['16 soft']);
    // it tells something by itself, but hardly anything more
    expect(blocks({ 6: { soft: 0.1 } })).toEqual(['24 soft']);
    expect(blocks({ 3: { soft: 0.2 }, 6: { soft: 0.1 } })).toEqual(['16 soft']);
    expect(blocks({ 3: { soft: 0.2 }, 6: { soft: 0.2 } })).toEqual(['16 soft', '24 soft']);
  });
});

describe('an imagined ride', () => {
  it.each([
    ['shifts go wrong', { trouble: each(0.8, USUAL), drop: each(0.001, 0.001) }],
    ['chains are lost', { trouble: each(USUAL, USUAL), drop: each(0.8, 0.001) }],
  ])('speaks for a fault by which %s, and against it where none do', (_, expectation) => {
    const rides = new ImaginedRides({ particles, expect: () => expectation }, seededRandom(3, 'imagined rides'), 1);
    const ridden = rides.ride(rides.none(), [{ cog: 4, larger: true, firm: false, count: 12 }]);
    rides.truths.forEach((truth, t) => {
      const forFault = ridden[t][particles.indexOf(faulty)] - ridden[t][particles.indexOf(sound)];
      expect(forFault > 0).toBe(particles[truth] === faulty);
    });
    expect(rides.expectedBits(ridden)).toBeGreaterThan(0.95);
  });
});

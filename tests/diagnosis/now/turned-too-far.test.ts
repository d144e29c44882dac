import { describe, expect, it } from 'vitest';
import type { Setup } from '../../../src/diagnosis/imagined-bike/setup.ts';
import { seenSince } from '../../../src/diagnosis/now/seen-since.ts';
import { type TurnedFacts, turnedTooFar } from '../../../src/diagnosis/now/turned-too-far.ts';
import type { Particle } from '../../../src/diagnosis/posterior/particles.ts';
import { bentHanger, cableBike, healthyPattern, type PatternRide } from '../pattern-ride.ts';
import { adjustedBike, lost, slow, type Turn } from './adjusted-bikes.ts';

/** Imagined bikes of which so many of ten stand off by an offset, with limits in order. */
const bikes = (offset: number, count = 10): Particle[] =>
  Array.from({ length: 10 }, (_, i) => {
    const now = { offset: i < count ? offset : 0, lowClear: 0.5, highClear: 0.5, gap: 0 } as Setup;
    return { now } as Particle;
  });

/** A ride in order, a turn, and a ride since. */
function facts(after: Turn, ridden: Omit<PatternRide, 'day'>, changes: Partial<TurnedFacts> = {}): TurnedFacts {
  const { rides, adjustments } = adjustedBike([{ pattern: healthyPattern }, { ...ridden, after }]);
  const since = seenSince(rides, adjustments, cableBike);
  const told = { cause: 'cable-tension-low', probability: 0.9, particles: bikes(2) } as const;
  return { ...told, rides, turned: adjustments, since, shiftsTell: true, ...changes };
}

const more: Turn = ['cable-tension', 4];
const slowToSmaller = { pattern: slow('to-smaller') };
const found = (...given: Parameters<typeof facts>) => turnedTooFar(facts(...given))?.fault ?? null;

describe('turnedTooFar', () => {
  it('asks for all three: turned that way, out on that side, and rides that fail that way', () => {
    expect(found(more, slowToSmaller)).toBe('cable-tension-high');
    expect(found(['cable-tension', -4], slowToSmaller)).toBeNull();
    expect(found(more, slowToSmaller, { particles: bikes(2, 1) })).toBeNull();
    expect(found(more, { pattern: healthyPattern })).toBeNull();
    expect(found(more, { pattern: slow('to-larger') })).toBeNull();
    expect(found(more, slowToSmaller, { shiftsTell: false })).toBeNull();
  });

  it('asks for most bikes on that side, but for few where the setting was out on the other side at first', () => {
    const half = { particles: bikes(2, 5) };
    expect(found(more, slowToSmaller, half)).toBe('cable-tension-high');
    expect(found(more, slowToSmaller, { ...half, cause: 'pulley-gap-small' })).toBeNull();
    expect(found(more, slowToSmaller, { cause: 'pulley-gap-small' })).toBe('cable-tension-high');
  });

  it('takes a chain that moves to larger cogs by itself time and again for a failure too', () => {
    const ghosts = [4, 5, 6, 7].map((cog) => [cog, cog + 1] as const);
    expect(found(more, { pattern: healthyPattern, ghosts })).toBe('cable-tension-high');
    expect(found(more, { pattern: healthyPattern, ghosts: ghosts.slice(0, 2) })).toBeNull();
  });

  it('does not blame what was turned for a failure that the first cause explains', () => {
    expect(found(more, { pattern: bentHanger }, { cause: 'hanger-bent' })).toBeNull();
    expect(found(more, slowToSmaller, { cause: 'cable-friction' })).toBeNull();
    expect(
      found(['cable-tension', -4], { pattern: slow('to-larger') }, { cause: 'cable-friction', particles: bikes(-2) }),
    ).toBe('cable-tension-low');
  });

  it('sees to a bent hanger before a limit, where that is all but sure', () => {
    const opened = { pattern: healthyPattern, drops: lost('past-largest', 1) };
    const hanger = (probability: number) => found(['low-limit', -1], opened, { cause: 'hanger-bent', probability });
    expect([hanger(0.95), hanger(0.6)]).toEqual([null, 'low-limit-loose']);
  });

  it('goes by a chain lost since the screw was last turned, not by one lost before', () => {
    const drops = lost('past-largest', 2);
    const [opened, closed]: Turn[] = [
      ['low-limit', -2],
      ['low-limit', 0.5],
    ];
    const of = (...[rides]: Parameters<typeof adjustedBike>) => {
      const { rides: ridden, adjustments } = adjustedBike(rides);
      const since = seenSince(ridden, adjustments, cableBike);
      const own = { particles: bikes(0), cause: 'low-limit-tight', probability: 0.9, shiftsTell: true } as const;
      return turnedTooFar({ ...own, rides: ridden, turned: adjustments, since });
    };
    const [first, sound] = [{ pattern: healthyPattern }, { pattern: healthyPattern }];
    const lostOnce = { pattern: healthyPattern, drops };
    expect(of([first, { ...lostOnce, after: opened }, { ...sound, after: closed }])).toBeNull();
    expect(of([first, { ...sound, after: opened }, { ...lostOnce, after: closed }])).toMatchObject({
      fault: 'low-limit-loose',
      amount: 1.5,
      lastTowards: false,
    });
    expect(of([lostOnce, { ...sound, after: opened }])).toBeNull();
  });
});

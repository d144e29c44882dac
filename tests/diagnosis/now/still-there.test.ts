import { describe, expect, it } from 'vitest';
import type { Setup } from '../../../src/diagnosis/imagined-bike/setup.ts';
import { shareStandingOut, stillThere } from '../../../src/diagnosis/now/still-there.ts';
import type { Particle } from '../../../src/diagnosis/posterior/particles.ts';

/** One imagined bike of which only the low limit's room matters: in order, when the fault came, and now. */
const bike = (cause: Particle['cause'], healthy: number, atFirst: number, now: number): Particle => {
  const setup = (lowClear: number): Setup => ({ lowClear, highClear: lowClear }) as Setup;
  return { cause, healthy: setup(healthy), atFirst: setup(atFirst), now: setup(now) } as Particle;
};

describe('stillThere', () => {
  it.each(['low-limit-tight', 'high-limit-tight'] as const)('measures %s from the room of that very bike', (cause) => {
    expect(stillThere([bike(cause, 0.9, -0.3, 0.05)], cause)).toBe(1);
    expect(stillThere([bike(cause, 0.9, -0.3, 0.3)], cause)).toBe(0);
  });

  it.each(['low-limit-loose', 'high-limit-loose'] as const)('measures %s from the room of that very bike', (cause) => {
    expect(stillThere([bike(cause, 0.2, 2, 1.3)], cause)).toBe(1);
    expect(stillThere([bike(cause, 0.2, 2, 1.2)], cause)).toBe(0);
  });

  const tension = (atFirst: number, now: number): Particle =>
    ({ cause: 'cable-tension-low', atFirst: { offset: atFirst }, now: { offset: now } }) as Particle;

  it('holds a fault that still stands out for there, however much of it is gone', () => {
    expect(stillThere([tension(-4, -1.5)], 'cable-tension-low')).toBe(1);
    expect(stillThere([tension(-4, -0.3)], 'cable-tension-low')).toBe(0);
  });

  it('holds a stop that was opened for there while it stops the pulley as far short as would trouble shifts', () => {
    for (const cause of ['low-limit-tight', 'high-limit-tight'] as const) {
      expect(stillThere([bike(cause, 0.5, -4, -0.8)], cause)).toBe(1);
      // the chain climbs onto the end cog from there: nothing shows
      expect(stillThere([bike(cause, 0.5, -4, -0.5)], cause)).toBe(0);
    }
  });

  it('is not said of one that was turned past the mark: it stands out on the other side', () => {
    const bikes = [tension(-4, 1.5), tension(-4, 0.9), tension(-4, 0.5), tension(-4, -2)];
    expect(stillThere(bikes, 'cable-tension-low')).toBe(0.25);
    expect(shareStandingOut(bikes, 'cable-tension-high')).toBe(0.5);
    expect(shareStandingOut([bike('low-limit-tight', 0.5, -1, 1.6)], 'low-limit-loose')).toBe(1);
    expect(shareStandingOut([], 'low-limit-loose')).toBe(0);
  });
});

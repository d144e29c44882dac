import { expect, it } from 'vitest';
import { assumptions } from '../../src/diagnosis/assumptions.ts';
import { DRAW_DIMENSIONS, readDraw } from '../../src/diagnosis/imagined-bike/draw.ts';
import { healthySetup } from '../../src/diagnosis/imagined-bike/healthy-setup.ts';
import { turnsNeeded } from '../../src/diagnosis/posterior/estimates.ts';
import type { Particle } from '../../src/diagnosis/posterior/particles.ts';

/** Imagined bikes that are one and the same: the pulley stands 1 mm too far outboard, and a click moves it as far as on that one bike. */
function alike(): Particle[] {
  const draw = readDraw(new Float64Array(DRAW_DIMENSIONS).fill(0.3), 0);
  const sound = healthySetup(draw, 3.7, false);
  const now = { ...sound, offset: -1 / sound.toleranceMm };
  const onset = { kind: 'steady' } as unknown as Particle['onset'];
  return Array.from({ length: 50 }, () => ({
    ...{ cause: 'cable-tension-low' as const, draw, onset },
    ...{ atFirst: now, now, healthy: sound },
  }));
}

it('is no surer of the clicks than what was known of a click beforehand, where none was logged', () => {
  const { low, high, mean } = turnsNeeded(alike(), 'cable-tension-low', { electronic: false, adjusted: ['hanger'] });
  const { clickMm } = assumptions;
  expect(low).toBeLessThan(1.1 / clickMm.high);
  expect(high).toBeGreaterThan(0.9 / clickMm.low);
  expect(mean).toBeGreaterThan(low);
});

it('goes by what clicks did where they were logged', () => {
  const [particle] = alike();
  const { low, high } = turnsNeeded(alike(), 'cable-tension-low', { electronic: false, adjusted: ['cable-tension'] });
  expect(low).toBeCloseTo(1 / particle.draw.assumed.clickMm, 9);
  expect(high).toBeCloseTo(low, 9);
});

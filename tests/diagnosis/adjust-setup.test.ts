import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { adjustSetup } from '../../src/diagnosis/imagined-bike/adjust-setup.ts';
import { DRAW_DIMENSIONS, type Draw, readDraw } from '../../src/diagnosis/imagined-bike/draw.ts';
import { faultySetup } from '../../src/diagnosis/imagined-bike/faulty-setup.ts';
import { healthySetup } from '../../src/diagnosis/imagined-bike/healthy-setup.ts';
import type { Setup } from '../../src/diagnosis/imagined-bike/setup.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

const random = seededRandom(3, 'adjusted setups');
/** Imagined bikes on which every repair cures its own part. */
const draws = Array.from({ length: 20 }, (): Draw => {
  const draw = readDraw(
    Float64Array.from({ length: DRAW_DIMENSIONS }, () => random.uniform()),
    0,
  );
  return { ...draw, shape: { ...draw.shape, cureOwn: 0 } };
});

/** The bike in order, and with a cause's fault, turned and then with its hanger aligned once or more often. */
function aligned(draw: Draw, cause: Cause, { clicks = 0, times = 1 } = {}): { healthy: Setup; now: Setup } {
  const healthy = healthySetup(draw, 3.65, false);
  const now = { ...faultySetup(cause, draw, healthy) };
  const at = '2026-05-03T18:00:00Z';
  adjustSetup(now, healthy, { at, parameter: 'cable-tension', amount: clicks, unit: 'clicks', note: '' }, draw);
  for (let i = 0; i < times; i++)
    adjustSetup(now, healthy, { at, parameter: 'hanger', amount: null, unit: 'done', note: '' }, draw);
  return { healthy, now };
}

/** Both setups to so many digits that rounding does not count. */
const figures = (setup: Setup): string[] =>
  Object.entries(setup).map(([name, value]) => `${name} ${value.toFixed(9).replace(/^-(0\.0*)$/, '$1')}`);

describe('a hanger that is aligned', () => {
  it('leaves the bike as it was before the hanger bent, however often it is aligned', () => {
    for (const draw of draws)
      for (const times of [1, 2]) {
        const { healthy, now } = aligned(draw, 'hanger-bent', { times });
        expect(figures(now)).toEqual(figures(healthy));
      }
  });

  it('leaves the clicks that were turned while it was bent', () => {
    for (const draw of draws) {
      const { healthy, now } = aligned(draw, 'hanger-bent', { clicks: 4 });
      expect((now.offset - healthy.offset) * healthy.toleranceMm).toBeCloseTo(4 * draw.assumed.clickMm, 9);
    }
  });

  it('changes nothing of another fault', () => {
    for (const draw of draws) {
      const { healthy, now } = aligned(draw, 'cable-tension-low');
      expect(figures(now)).toEqual(figures(faultySetup('cable-tension-low', draw, healthy)));
    }
  });
});

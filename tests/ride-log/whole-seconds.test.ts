import { expect, it } from 'vitest';
import { inWholeSeconds } from '../../src/ride-log/whole-seconds.ts';

it('times lie on a grid of one second where all but a few do', () => {
  expect(inWholeSeconds([])).toBe(true);
  expect(inWholeSeconds([300, 1300, 4300, 7310])).toBe(true);
  // one odd stamp among four tells nothing of the others
  expect(inWholeSeconds([0, 1000, 2000, 3500])).toBe(true);
});

it('but not where every third or more does not', () => {
  expect(inWholeSeconds([0, 1000, 2500])).toBe(false);
  expect(inWholeSeconds([0, 500])).toBe(false);
  expect(inWholeSeconds(Array.from({ length: 20 }, (_, i) => 1000 * i + (i % 5 === 0 ? 500 : 0)))).toBe(false);
});

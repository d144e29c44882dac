import { expect, it } from 'vitest';
import { saysLittle } from '../../src/shifts/outcomes/says-little.ts';
import type { OutcomeProbability } from '../../src/shifts/ride-events.ts';

const clean = (chance: number): OutcomeProbability => ({
  clean: chance,
  late: (1 - chance) / 2,
  missed: (1 - chance) / 2,
  overshot: 0,
});
/** The chance to which records that speak by this factor for a clean shift move a chance expected before. */
const moved = (expected: number, factor: number): OutcomeProbability => {
  const odds = (expected / (1 - expected)) * factor;
  return clean(odds / (1 + odds));
};

it('goes by what the records say, however likely clean was before', () => {
  for (const expected of [0.3, 0.9, 0.99]) {
    for (const factor of [0.4, 1, 2.5]) expect(saysLittle(moved(expected, factor), clean(expected))).toBe(true);
    for (const factor of [0.1, 0.3, 3.5, 100]) expect(saysLittle(moved(expected, factor), clean(expected))).toBe(false);
  }
});

it('is false of a certainty', () => {
  expect(saysLittle(clean(1), clean(0.9))).toBe(false);
  expect(saysLittle(clean(0), clean(0.9))).toBe(false);
});

import { expect, it } from 'vitest';
import { easedOff, type GhostSearch } from '../../src/shifts/ghosts/ghost-search.ts';

const START = 20;

/** Whether a rider who pressed with 180 W eased off in a move from second 20 up to `end`, by what the meter shows from then on. */
function eased(end: number, ...wattsFromStart: readonly number[]): boolean {
  const powerW = Float64Array.from({ length: 40 }, (_, i) => wattsFromStart[i - START] ?? 180);
  const log = { timeS: powerW.map((_, i) => i), powerW };
  return easedOff({ log } as unknown as GhostSearch, START, end);
}

it('a rider has eased off where little more than half of the power is left in the move', () => {
  expect(eased(30, 80, 80, 80, 80, 80)).toBe(true);
  expect(eased(30, 120, 120, 120, 120, 120)).toBe(false);
});

it('the power after a short move says nothing of it', () => {
  expect(eased(START + 3, 60, 60, 60, 300, 300)).toBe(true);
  expect(eased(START + 5, 60, 60, 60, 300, 300)).toBe(false);
});

it('two records next to each other with hardly any power will do, also just after the move began', () => {
  expect(eased(30, 10, 10, 300, 300, 300)).toBe(true);
  expect(eased(30, 10, 300, 10, 300, 300)).toBe(false);
});

it('without a power meter nothing shows it', () => {
  expect(eased(30, ...Array(5).fill(Number.NaN))).toBe(false);
});

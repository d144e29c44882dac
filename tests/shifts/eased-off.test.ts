import { expect, it } from 'vitest';
import { easedOff, type GhostSearch } from '../../src/shifts/ghosts/ghost-search.ts';

const START = 20;
const ON_NEW_COG = 1.9;
const ON_NONE = 2.1;

/** Whether a rider who pressed with 180 W eased off in a move from second 20 up to `end`, by what the meter shows from then on, at such a ratio. */
function easedAt(ratio: number, end: number, ...wattsFromStart: readonly number[]): boolean {
  const powerW = Float64Array.from({ length: 40 }, (_, i) => wattsFromStart[i - START] ?? 180);
  const log = { timeS: powerW.map((_, i) => i), powerW };
  const trace = {
    logDevelopment: powerW.map(() => ratio),
    deviation: powerW.map(() => 0.02),
    ring: new Int8Array(powerW.length),
  };
  const model = { cogs: 2, logDevelopment: Float64Array.of(ON_NEW_COG, 1.8) };
  return easedOff({ log, trace, model } as unknown as GhostSearch, { start: START, end, toCog: 0 });
}
const eased = (end: number, ...wattsFromStart: readonly number[]): boolean => easedAt(ON_NONE, end, ...wattsFromStart);

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

it('nobody eased off who soon presses as usual for five seconds, with the ratio on the new cog', () => {
  const short = [0, 0, 180, 180, 180, 180];
  expect(easedAt(ON_NEW_COG, 30, 0, 0)).toBe(false);
  expect(easedAt(ON_NONE, 30, 0, 0)).toBe(true);
  expect(easedAt(ON_NEW_COG, START + short.length, ...short)).toBe(true);
});

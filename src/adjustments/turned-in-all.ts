import { sum } from 'd3-array';
import type { Adjustment } from './adjustment.ts';

/** Amounts are written in decimal parts, whose sums are not exact: nobody turns a screw by less than one of these. */
const PARTS = 1e6;

/**
 * How far some entries turned a setting, all in all: their amounts added up with their signs, exactly 0 where they take each other back. What was
 * aligned or replaced turns nothing.
 *
 * @example turnedInAll([{ amount: 0.1 }, { amount: 0.2 }, { amount: -0.3 }]) // 0
 */
export const turnedInAll = (turns: readonly Pick<Adjustment, 'amount'>[]): number =>
  Math.round(PARTS * sum(turns, ({ amount }) => amount ?? 0)) / PARTS || 0;

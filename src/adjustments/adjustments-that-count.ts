import type { Adjustment } from './adjustment.ts';
import { turnsAnything } from './doubtful-adjustment.ts';

/** Two entries with the same key say the same; the notes beside them are left out. */
export const adjustmentKey = ({ at, parameter, amount }: Adjustment): string =>
  `${Date.parse(at)} ${parameter} ${amount}`;

/** Adjustments that changed something, each once: what is entered twice, the same each time, was done once. */
export function adjustmentsThatCount(adjustments: readonly Adjustment[]): Adjustment[] {
  const known = new Set<string>();
  return adjustments.filter(turnsAnything).filter((one) => {
    const key = adjustmentKey(one);
    return !known.has(key) && known.add(key);
  });
}

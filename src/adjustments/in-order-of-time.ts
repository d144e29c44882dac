import { ascending, sort } from 'd3-array';
import type { Adjustment } from './adjustment.ts';

/** Adjustments the earliest first; those of one moment by part, then by amount, so that it does not matter in which order they are given. */
export const inOrderOfTime = <One extends Pick<Adjustment, 'at' | 'parameter' | 'amount'>>(
  adjustments: readonly One[],
): One[] =>
  sort(
    adjustments,
    (a, b) =>
      ascending(Date.parse(a.at), Date.parse(b.at)) ||
      ascending(a.parameter, b.parameter) ||
      ascending(a.amount ?? 0, b.amount ?? 0),
  );

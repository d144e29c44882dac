import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';

/** A rate of trouble with the upper end of its interval, and the shifts that it is of. */
interface Rated {
  readonly shifts: number;
  readonly troubleRate: number | null;
  readonly high: number;
}

/** Upper end of the axis: over all intervals but those of few shifts, whose points alone count, so that they do not press the others flat. */
export function topRate(rows: readonly Rated[]): number {
  const tops = rows.map(({ shifts, troubleRate, high }) => (shifts < SAY_LITTLE ? (troubleRate ?? 0) : high));
  return Math.min(1, 1.05 * Math.max(0.2, ...tops));
}

import { wilsonInterval } from '../numeric/wilson-interval.ts';
import type { RideCounts } from './ride-counts.ts';

/** Share of a ride's judged shifts (`shifts`) that were late, missed or overshot, with its 95 % interval. Null where none was judged. */
export interface RideTrouble {
  readonly shifts: number;
  readonly troubleRate: number | null;
  readonly low: number;
  readonly high: number;
}

/** The trouble in one ride. */
export function rideTrouble({ clean, late, missed, overshot }: RideCounts): RideTrouble {
  const trouble = late + missed + overshot;
  const shifts = clean + trouble;
  return { shifts, troubleRate: shifts > 0 ? trouble / shifts : null, ...wilsonInterval(trouble, shifts) };
}

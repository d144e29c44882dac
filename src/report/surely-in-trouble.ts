import { wilsonInterval } from '../numeric/wilson-interval.ts';

/** Five shifts that all went wrong would outdo hundreds of which two in five did, even by the low end of an interval. An assumption of ours. */
const FEW_TO_SET_IN_ORDER = 10;

/** Shifts of which some went wrong; the rate is null where there were none. */
interface Tried {
  readonly shifts: number;
  readonly troubleRate: number | null;
}

/**
 * How often shifts surely go wrong, 0 to 1, to set bikes or cogs in order by: the low end of the 95 % interval of their rate. Of fewer than
 * `FEW_TO_SET_IN_ORDER` those that are wanting count as clean, so that a handful does not lead. 0 where there were none.
 */
export const surelyInTrouble = ({ shifts, troubleRate }: Tried): number =>
  wilsonInterval((troubleRate ?? 0) * shifts, Math.max(shifts, FEW_TO_SET_IN_ORDER)).low;

/** For sorting: what surely goes wrong more often stands first. */
export const bySurestTrouble = (a: Tried, b: Tried): number => surelyInTrouble(b) - surelyInTrouble(a);

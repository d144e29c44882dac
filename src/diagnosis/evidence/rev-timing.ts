import { median } from 'd3-array';
import { DEVIATIONS_PER_MAD } from '../../numeric/median-deviation.ts';
import type { RideEvents, ShiftEvent } from '../../shifts/ride-events.ts';

/**
 * Whether a shift's crank turns tell of the bike: those of clean shifts by one cog do. Over several cogs the chain needs longer,
 * the more so the quicker the presses came.
 */
export function timesCog(shift: ShiftEvent): shift is ShiftEvent & { readonly crankRevs: number } {
  return shift.outcome === 'clean' && shift.crankRevs !== null && !shift.weak && shift.cogsToCross === 1;
}

/** Middle and spread of the crank turns that clean shifts by one cog take. */
export interface RevTiming {
  readonly median: number;
  readonly spread: number;
}

/** A single shift counts for no more than this many spreads off the median. */
export const MOST_SPREADS = 3;

/** Spread that is taken where no ride shows one. An assumption of ours. */
export const USUAL_SPREAD = 0.2;

/** Median of a ride's clean shifts by one cog, and their spread (standard deviation, from the median absolute deviation), at least 0.05 turns. */
export function revTiming(events: RideEvents): RevTiming {
  const revs = events.shifts.filter(timesCog).map(({ crankRevs }) => crankRevs);
  if (revs.length === 0) return { median: 0, spread: USUAL_SPREAD };
  const middle = median(revs) ?? 0;
  return {
    median: middle,
    spread: Math.max(0.05, DEVIATIONS_PER_MAD * (median(revs.map((value) => Math.abs(value - middle))) ?? 0)),
  };
}

import { bisector } from 'd3-array';
import type { Direction, ShiftEvent } from '../../shifts/ride-events.ts';
import { cogCell } from './evidence-table.ts';

const byTime = bisector<Pick<ShiftEvent, 'lastTimeS'>, number>((shift) => shift.lastTimeS).right;

/** Which way the lever moved the cable last before a moment, by a ride's shifts in order of time; null before the first. */
export function lastAskedBefore(shifts: readonly ShiftEvent[], timeS: number): Direction | null {
  return shifts[byTime(shifts, timeS) - 1]?.direction ?? null;
}

/**
 * Share of the time on each cog during which the last shift asked for had gone to-larger, by the time from each shift to the next;
 * a half where a cog was never asked for.
 */
export function afterLargerShare(shifts: readonly ShiftEvent[], cassetteLength: number): Float64Array {
  const askedS = new Float64Array(2 * cassetteLength);
  for (let i = 0; i + 1 < shifts.length; i++) {
    const { toCog, direction, lastTimeS } = shifts[i];
    if (toCog >= 0 && toCog < cassetteLength)
      askedS[cogCell(cassetteLength, direction === 'to-larger', toCog)] += Math.max(0, shifts[i + 1].timeS - lastTimeS);
  }
  return Float64Array.from({ length: cassetteLength }, (_, cog) => {
    const larger = askedS[cogCell(cassetteLength, true, cog)];
    const all = larger + askedS[cogCell(cassetteLength, false, cog)];
    return all > 0 ? larger / all : 0.5;
  });
}

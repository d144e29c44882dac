import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';
import type { DropSide } from '../ride-events.ts';

/** A shift this long before a chain was lost is held to have led to it: the loss shows only after some turns of the cranks. */
export const AFTER_COMMAND_S = 7;

/**
 * Without gear records the last cog seen is rarely the end cog itself: the chain was lost on its way there, often in one burst over
 * several cogs. So many outer cogs count as that end (an assumption of ours).
 */
const OUTER_COGS = 3;

/**
 * The side on which a dropped chain left: after a command of the ring at the chainring; past the end cog that was asked for in the last
 * `AFTER_COMMAND_S`, also where the rider has shifted back since, as many do at once; in mid cassette, where nothing guides it off, at the
 * chainring. Without gear records past the end on whose `OUTER_COGS` cogs the chain was last seen, else unknown. `afterShiftTo` is the cog of a command
 * within `AFTER_COMMAND_S` before, the one onto the end cog where there is one, and `sinceShiftS` the seconds since it (NaN without one).
 */
export function dropSide(
  log: RideLog,
  trace: RideTrace,
  timeS: number,
): { side: DropSide; afterShiftTo: number | null; sinceShiftS: number } {
  const { commands, model } = trace;
  if (!model) return { side: 'unknown', ...noShift };
  const sideOf = (cog: number): DropSide | null =>
    cog === model.cogs - 1 ? 'past-largest' : cog === 0 ? 'past-smallest' : null;
  const last = firstAfter(commands.timeS, timeS + 0.5) - 1;
  if (last < 0) {
    const seen = lastKnown(trace.cog, firstAfter(log.timeS, timeS));
    return {
      side: commands.timeS.length === 0 ? nearerEnd(seen, model.cogs) : (sideOf(seen) ?? 'chainring'),
      ...noShift,
    };
  }
  let cogChange = -1;
  let endChange = -1;
  let ringChange = -1;
  for (let c = last; c > 0 && timeS - commands.timeS[c] <= AFTER_COMMAND_S; c--) {
    if (commands.cog[c] >= 0 && commands.cog[c] !== commands.cog[c - 1]) {
      if (cogChange < 0) cogChange = c;
      if (endChange < 0 && sideOf(commands.cog[c])) endChange = c;
    }
    if (ringChange < 0 && commands.ring[c] !== commands.ring[c - 1] && commands.ring[c - 1] >= 0) ringChange = c;
  }
  const change = endChange >= 0 ? endChange : cogChange;
  const shift =
    change >= 0 ? { afterShiftTo: commands.cog[change], sinceShiftS: timeS - commands.timeS[change] } : noShift;
  if (ringChange > change) return { side: 'chainring', ...shift };
  const cog = endChange >= 0 ? commands.cog[endChange] : commands.cog[last];
  return { side: cog < 0 ? 'unknown' : (sideOf(cog) ?? 'chainring'), ...shift };
}

/** The side of the end on whose outer cogs a chain was last seen; -1 where it was seen on none. */
function nearerEnd(cog: number, cogs: number): DropSide {
  const fromLargest = cogs - 1 - cog;
  if (cog < 0 || Math.min(cog, fromLargest) >= OUTER_COGS || cog === fromLargest) return 'unknown';
  return fromLargest < cog ? 'past-largest' : 'past-smallest';
}

const noShift = { afterShiftTo: null, sinceShiftS: Number.NaN };

function lastKnown(column: Int8Array, before: number): number {
  for (let i = before - 1; i >= 0; i--) if (column[i] >= 0) return column[i];
  return -1;
}

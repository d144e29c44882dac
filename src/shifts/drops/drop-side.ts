import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { firstAfter } from '../first-after.ts';
import type { DropSide } from '../ride-events.ts';

/** A shift this long before a chain was lost is held to have led to it: the loss shows only after some turns of the cranks. */
export const AFTER_COMMAND_S = 7;

/**
 * The side on which a dropped chain left: after a command of the ring at the chainring; with the derailleur at an end cog past that;
 * in mid cassette, where nothing guides it off, at the chainring. `afterShiftTo` is the cog of a command within `AFTER_COMMAND_S` before.
 */
export function dropSide(
  log: RideLog,
  trace: RideTrace,
  timeS: number,
): { side: DropSide; afterShiftTo: number | null } {
  const { commands, model } = trace;
  if (!model) return { side: 'unknown', afterShiftTo: null };
  const last = firstAfter(commands.timeS, timeS + 0.5) - 1;
  let cogChange = -1;
  let ringChange = -1;
  for (let c = last; c > 0 && timeS - commands.timeS[c] <= AFTER_COMMAND_S; c--) {
    if (cogChange < 0 && commands.cog[c] !== commands.cog[c - 1]) cogChange = c;
    if (ringChange < 0 && commands.ring[c] !== commands.ring[c - 1] && commands.ring[c - 1] >= 0) ringChange = c;
  }
  const afterShiftTo = cogChange >= 0 ? commands.cog[cogChange] : null;
  if (ringChange > cogChange) return { side: 'chainring', afterShiftTo };
  const cog = last >= 0 ? commands.cog[last] : lastKnown(trace.cog, firstAfter(log.timeS, timeS));
  if (cog < 0) return { side: 'unknown', afterShiftTo };
  return { side: cog === model.cogs - 1 ? 'past-largest' : cog === 0 ? 'past-smallest' : 'chainring', afterShiftTo };
}

function lastKnown(column: Int8Array, before: number): number {
  for (let i = before - 1; i >= 0; i--) if (column[i] >= 0) return column[i];
  return -1;
}

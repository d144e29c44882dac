import type { RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { firstAfter } from './commanded-shifts.ts';
import type { ChainDropEvent, DropSide } from './ride-events.ts';

const MIN_LOST_S = 2;
const AFTER_COMMAND_S = 5;

/**
 * Finds where drive was lost: runs in which the trace holds the chain for off. The side follows from the command before:
 * after a shift to the largest cog it went past it, after one to the smallest past that, after a change of ring at the chainring.
 */
export function chainDrops(log: RideLog, trace: RideTrace, sensorLagS: number): ChainDropEvent[] {
  const found: ChainDropEvent[] = [];
  for (let start = 0; start < trace.driveLost.length; start++) {
    if (trace.driveLost[start] < 0.5) continue;
    let end = start;
    let seenS = 0;
    let sum = 0;
    let seen = 0;
    for (; end < trace.driveLost.length && trace.driveLost[end] >= 0.5; end++) {
      if (!trace.samples.usable[end]) continue;
      seenS += Math.min(trace.samples.dtS[end], 2);
      sum += trace.driveLost[end];
      seen++;
    }
    if (seenS >= MIN_LOST_S) {
      const timeS = Math.max(0, log.timeS[start] - Math.max(0, sensorLagS));
      found.push({ timeS, ...sideOf(trace, timeS, start), confidence: sum / seen });
    }
    start = end;
  }
  return found;
}

function sideOf(trace: RideTrace, timeS: number, start: number): { side: DropSide; afterShiftTo: number | null } {
  const { commands, model } = trace;
  if (!model) return { side: 'unknown', afterShiftTo: null };
  const last = firstAfter(commands.timeS, timeS + 1) - 1;
  const fresh = last > 0 && timeS - commands.timeS[last] <= AFTER_COMMAND_S;
  const cogCommanded = fresh && commands.cog[last] !== commands.cog[last - 1];
  const ringCommanded = fresh && commands.ring[last] !== commands.ring[last - 1];
  const cog = last >= 0 ? commands.cog[last] : lastKnown(trace.cog, start);
  const side =
    ringCommanded && !cogCommanded
      ? 'chainring'
      : cog === model.cogs - 1
        ? 'past-largest'
        : cog === 0
          ? 'past-smallest'
          : 'unknown';
  return { side, afterShiftTo: cogCommanded ? commands.cog[last] : null };
}

function lastKnown(column: Int8Array, before: number): number {
  for (let i = before - 1; i >= 0; i--) if (column[i] >= 0) return column[i];
  return -1;
}

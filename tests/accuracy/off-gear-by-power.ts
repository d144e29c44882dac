import type { RideTrace } from '../../src/gear-trace/gear-trace.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';

/** Bounds of the power, W: from each up to the next. */
const BOUNDS_W = [0, 0.5, 10, 40, 80, Number.POSITIVE_INFINITY];
/** A second counts so long after a command and before the next, s. */
const SETTLED_S = { after: 6, before: 2 };
/** A ratio so many deviations above the commanded gear is not that of a chain that drives on it. */
const OFF_DEVIATIONS = 2;

/** Settled seconds with a power from `fromW` up to `toW`, and how many of them show a ratio above the commanded gear. */
export interface OffGear {
  readonly fromW: number;
  readonly toW: number;
  readonly seconds: number;
  readonly above: number;
}

/** How often legs that turn do not drive, by their power: in a ride in order the ratio then lies above the commanded gear. */
export function offGearByPower(log: RideLog, { commands, model, logDevelopment, deviation }: RideTrace): OffGear[] {
  const counts = BOUNDS_W.slice(1).map(() => ({ seconds: 0, above: 0 }));
  log.timeS.forEach((second, i) => {
    const last = commands.latest[i];
    const [cog, ring] = [commands.cog[last] ?? -1, commands.ring[last] ?? -1];
    if (!model || cog < 0 || ring < 0) return;
    if (second - commands.timeS[last] < SETTLED_S.after || commands.timeS[last + 1] - second < SETTLED_S.before) return;
    const above = (logDevelopment[i] - model.logDevelopment[ring * model.cogs + cog]) / deviation[i];
    const bin = BOUNDS_W.findLastIndex((fromW) => log.powerW[i] >= fromW);
    if (Number.isNaN(above) || bin < 0) return;
    counts[bin].seconds++;
    if (above >= OFF_DEVIATIONS) counts[bin].above++;
  });
  return counts.map((count, bin) => ({ fromW: BOUNDS_W[bin], toW: BOUNDS_W[bin + 1], ...count }));
}

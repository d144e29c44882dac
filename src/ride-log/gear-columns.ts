import { possibleCog, possibleRing } from './impossible-values.ts';
import type { DraftGear } from './ride-draft.ts';
import type { GearRecords } from './ride-log.ts';
import { inWholeSeconds } from './whole-seconds.ts';

/** Gear records this far outside the ride's records still belong to it: the state a device reports as it wakes. */
const MARGIN_MS = 10 * 60 * 1000;

/** The gear records of a ride that began at `startMs` and ended at `endMs`, sorted by time whatever their order in the file. */
export function gearColumns(
  gears: readonly DraftGear[],
  startMs: number,
  endMs: number,
): { gearRecords: GearRecords; outside: number; impossible: number } {
  const kept = gears
    .filter(({ timeMs }) => timeMs >= startMs - MARGIN_MS && timeMs <= endMs + MARGIN_MS)
    .sort((a, b) => a.timeMs - b.timeMs);
  const rearTeeth = Uint8Array.from(kept, (gear) => possibleCog(gear.rearTeeth));
  const frontTeeth = Uint8Array.from(kept, (gear) => possibleRing(gear.frontTeeth));
  return {
    gearRecords: {
      timeS: Float64Array.from(kept, ({ timeMs }) => (timeMs - startMs) / 1000),
      rearTeeth,
      frontTeeth,
      rearPosition: Uint8Array.from(kept, (gear) => gear.rearPosition),
      frontPosition: Uint8Array.from(kept, (gear) => gear.frontPosition),
      wholeSeconds: inWholeSeconds(kept.map(({ timeMs }) => timeMs)),
    },
    outside: gears.length - kept.length,
    impossible: kept.filter((gear, i) => gear.rearTeeth !== rearTeeth[i] || gear.frontTeeth !== frontTeeth[i]).length,
  };
}

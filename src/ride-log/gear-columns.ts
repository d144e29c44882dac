import { COG_TEETH, COGS, RINGS } from '../drivetrain/tooth-limits.ts';
import { possibleCog, possibleRing } from './impossible-values.ts';
import type { DraftGear } from './ride-draft.ts';
import type { GearRecords } from './ride-log.ts';
import { inWholeSeconds } from './whole-seconds.ts';

/** Gear records this far outside the ride's records still belong to it: the state a device reports as it wakes. */
const MARGIN_MS = 10 * 60 * 1000;

/** The gear records of a ride, and what was set aside. */
export interface GearColumns {
  readonly gearRecords: GearRecords;
  /** Records far outside the ride's time. */
  readonly outside: number;
  /** Records with tooth counts that cannot be. */
  readonly impossible: number;
  /** What stood in place of teeth and looks like positions, rising; empty where nothing does. */
  readonly positions: { readonly rear: readonly number[]; readonly front: readonly number[] };
}

/** The gear records of a ride that began at `startMs` and ended at `endMs`, sorted by time whatever their order in the file. */
export function gearColumns(gears: readonly DraftGear[], startMs: number, endMs: number): GearColumns {
  const inside = gears
    .filter(({ timeMs }) => timeMs >= startMs - MARGIN_MS && timeMs <= endMs + MARGIN_MS)
    .sort((a, b) => a.timeMs - b.timeMs);
  const positions = {
    rear: asPositions(
      inside.map(({ rearTeeth }) => rearTeeth),
      COGS.most,
      COG_TEETH.least,
    ),
    front: asPositions(
      inside.map(({ frontTeeth }) => frontTeeth),
      RINGS.most,
      RINGS.most + 1,
    ),
  };
  const kept = withoutPositions(inside, positions);
  const rearTeeth = Uint8Array.from(kept, (gear) => possibleCog(gear.rearTeeth));
  const frontTeeth = Uint8Array.from(kept, (gear) => possibleRing(gear.frontTeeth));
  const impossible = (teeth: number, known: number): boolean => !Number.isNaN(teeth) && teeth !== known;
  return {
    gearRecords: {
      timeS: Float64Array.from(kept, ({ timeMs }) => (timeMs - startMs) / 1000),
      rearTeeth,
      frontTeeth,
      rearPosition: Uint8Array.from(kept, (gear) => gear.rearPosition),
      frontPosition: Uint8Array.from(kept, (gear) => gear.frontPosition),
      ...lostWhere(
        'rearLost',
        kept.map((gear, i) => gear.rearTeeth !== rearTeeth[i]),
      ),
      ...lostWhere(
        'frontLost',
        kept.map((gear, i) => gear.frontTeeth !== frontTeeth[i]),
      ),
      wholeSeconds: inWholeSeconds(kept.map(({ timeMs }) => timeMs)),
    },
    outside: gears.length - inside.length,
    impossible: kept.filter(
      (gear, i) => impossible(gear.rearTeeth, rearTeeth[i]) || impossible(gear.frontTeeth, frontTeeth[i]),
    ).length,
    positions,
  };
}

const lostWhere = (name: 'rearLost' | 'frontLost', lost: readonly boolean[]): Partial<GearRecords> =>
  lost.includes(true) ? { [name]: Uint8Array.from(lost, Number) } : {};

/** The tooth counts of a column that counts cogs or rings in place of teeth: none beyond the most there can be, several below the least teeth. */
function asPositions(teeth: readonly number[], most: number, leastTeeth: number): number[] {
  const named = [...new Set(teeth)].filter((count) => count > 0).sort((a, b) => a - b);
  const below = named.filter((count) => count < leastTeeth).length;
  return below > 1 && named[named.length - 1] <= most ? named : [];
}

/** The records without the teeth that are none; those that then say nothing are left out. */
function withoutPositions(
  gears: readonly DraftGear[],
  { rear, front }: GearColumns['positions'],
): readonly DraftGear[] {
  if (rear.length === 0 && front.length === 0) return gears;
  const oneRing = new Set(gears.map(({ frontTeeth }) => frontTeeth)).size === 1;
  return gears
    .map((gear) => ({
      ...gear,
      rearTeeth: rear.length > 0 ? 0 : gear.rearTeeth,
      frontTeeth: front.length > 0 ? 0 : gear.frontTeeth,
    }))
    .filter((gear) => gear.rearTeeth !== 0 || gear.rearPosition !== 0 || (gear.frontTeeth !== 0 && !oneRing));
}

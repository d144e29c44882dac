import type { DraftGear } from '../ride-draft.ts';

/**
 * The gear cells of a file's rows as columns, in the file's order. Teeth: 0 = the row names none (unchanged), NaN = what it
 * names cannot be read. `timeMs` is NaN for a row whose moment is not known.
 */
export interface GearRows {
  readonly timeMs: Float64Array;
  readonly rear: Float64Array;
  readonly front: Float64Array;
}

/** The gear records that rows make. */
export interface GearChanges {
  readonly gears: readonly DraftGear[];
  /** By row: 1 where the row itself changes the gear. */
  readonly changes: Uint8Array;
  /** How often the gear was lost, to be known again only once a row names it. */
  readonly lost: number;
}

interface NamedGear {
  readonly row: number;
  readonly timeMs: number;
  readonly rear: number;
  readonly front: number;
}

/**
 * Makes a gear record wherever, in order of time, a commanded tooth count appears or changes. A gear in a row whose moment is not
 * known counts from the next row in time on; where that gear cannot be read it is not known from there on until a row names it.
 *
 * @param backwards true where the file was written newest row first
 */
export function gearChanges(rows: GearRows, backwards: boolean): GearChanges {
  const named = namedGears(rows, backwards).sort((a, b) => a.timeMs - b.timeMs);
  const gears: DraftGear[] = [];
  const changes = new Uint8Array(rows.timeMs.length);
  let rearTeeth = 0;
  let frontTeeth = 0;
  let lost = 0;
  for (const { row, timeMs, rear, front } of named) {
    const before = [rearTeeth, frontTeeth];
    rearTeeth = after(rearTeeth, rear);
    frontTeeth = after(frontTeeth, front);
    if (Object.is(rearTeeth, before[0]) && Object.is(frontTeeth, before[1])) continue;
    if ([rearTeeth, frontTeeth].some((teeth, i) => Number.isNaN(teeth) && !Number.isNaN(before[i]))) lost++;
    changes[row] = rows.rear[row] > 0 || rows.front[row] > 0 ? 1 : 0;
    gears.push({ timeMs, rearTeeth, frontTeeth, rearPosition: 0, frontPosition: 0 });
  }
  return { gears, changes, lost };
}

/** What holds after a row: nothing is lost where nothing was known. */
const after = (teeth: number, named: number): number =>
  named === 0 || (teeth === 0 && Number.isNaN(named)) ? teeth : named;

/** What each row of known moment names, with what the rows just before it left open; those that name nothing are left out. */
function namedGears({ timeMs, rear, front }: GearRows, backwards: boolean): NamedGear[] {
  const named: NamedGear[] = [];
  let open = { rear: 0, front: 0 };
  for (let k = 0; k < timeMs.length; k++) {
    const row = backwards ? timeMs.length - 1 - k : k;
    if (Number.isNaN(timeMs[row])) {
      open = {
        rear: rear[row] === 0 ? open.rear : rear[row],
        front: front[row] === 0 ? open.front : front[row],
      };
      continue;
    }
    const gear = { rear: rear[row] > 0 ? rear[row] : open.rear, front: front[row] > 0 ? front[row] : open.front };
    open = { rear: Number.isNaN(rear[row]) ? NaN : 0, front: Number.isNaN(front[row]) ? NaN : 0 };
    if (gear.rear !== 0 || gear.front !== 0) named.push({ row, timeMs: timeMs[row], ...gear });
  }
  return named;
}

import { type Bike, possibleBike } from '../../drivetrain/bike.ts';
import { COG_TEETH, COGS, RING_TEETH, RINGS } from '../../drivetrain/tooth-limits.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';

/** A chain ring that nobody recorded: a middling size, which the rollout of usual wheels then corrects. */
const USUAL_RING = 40;

/**
 * Reads a drivetrain off the gear records of one or many rides: as many cogs as the highest position seen (else as tooth
 * counts seen), each with the teeth most often recorded there. Positions never used are filled in evenly.
 *
 * @returns null where fewer than two cogs were ever recorded, or sizes that no bike has
 */
export function guessFromRecords(logs: readonly RideLog[]): Bike | null {
  const rear = collect(logs, 'rear');
  const front = collect(logs, 'front');
  const cassette = sizes(rear, true, COGS, COG_TEETH);
  if (!cassette || rear.byPosition.size + rear.teeth.size < 2) return null;
  const chainrings = sizes(front, false, RINGS, RING_TEETH) ?? [USUAL_RING];
  return possibleBike({ name: 'bike read from the gear records', chainrings, cassette, actuation: 'electronic' });
}

interface Limits {
  readonly least: number;
  readonly most: number;
}

interface Collected {
  /** For each position (1 = innermost), how often each tooth count was recorded. */
  readonly byPosition: Map<number, Map<number, number>>;
  readonly teeth: Set<number>;
}

function collect(logs: readonly RideLog[], end: 'rear' | 'front'): Collected {
  const byPosition = new Map<number, Map<number, number>>();
  const teeth = new Set<number>();
  for (const { gearRecords } of logs) {
    const positions = end === 'rear' ? gearRecords.rearPosition : gearRecords.frontPosition;
    const counts = end === 'rear' ? gearRecords.rearTeeth : gearRecords.frontTeeth;
    for (let i = 0; i < positions.length; i++) {
      if (counts[i] > 0) teeth.add(counts[i]);
      if (positions[i] === 0) continue;
      const seen = byPosition.get(positions[i]) ?? new Map<number, number>();
      byPosition.set(positions[i], seen.set(counts[i], (seen.get(counts[i]) ?? 0) + 1));
    }
  }
  return { byPosition, teeth };
}

/** Sizes from the smallest up; null where nothing was recorded. */
function sizes(
  { byPosition, teeth }: Collected,
  fromLargest: boolean,
  { least, most }: Limits,
  teethLimits: Limits,
): number[] | null {
  const highest = Math.max(0, ...byPosition.keys());
  if (highest < 1 || highest > most) {
    const listed = [...teeth].sort((a, b) => a - b);
    if (listed.length === 0 || listed.length > most) return null;
    return padded(listed, least, teethLimits);
  }
  const count = Math.max(highest, least);
  const slots = Array.from({ length: count }, (_, i) => {
    const seen = byPosition.get(fromLargest ? count - i : i + 1);
    const commonest = seen ? [...seen].filter(([t]) => t > 0).sort((a, b) => b[1] - a[1])[0] : undefined;
    return commonest ? commonest[0] : 0;
  });
  return filled(slots);
}

/** Adds larger sizes, and smaller ones where the largest is reached, until there are enough to be a cassette. */
function padded(listed: number[], least: number, teeth: Limits): number[] {
  const all = [...listed];
  while (all.length < least) {
    const larger = Math.round((all.at(-1) as number) * 1.15) + 1;
    if (larger <= teeth.most) all.push(larger);
    else all.unshift(Math.round(all[0] / 1.15) - 1);
  }
  return all;
}

/** Replaces unknown (0) and falling entries by values between, or beyond, their neighbours; null without any known. */
function filled(slots: number[]): number[] | null {
  const known = slots.map((teeth, i) => ({ teeth, i })).filter(({ teeth }) => teeth > 0);
  if (known.length === 0) return null;
  const rising = known.filter(({ teeth, i }) => known.every((other) => other.i >= i || other.teeth < teeth));
  const at = (i: number): number => {
    const below = rising.filter((entry) => entry.i <= i).at(-1);
    const above = rising.find((entry) => entry.i >= i);
    if (below && above)
      return below.i === above.i
        ? below.teeth
        : Math.exp(Math.log(below.teeth) + ((i - below.i) / (above.i - below.i)) * Math.log(above.teeth / below.teeth));
    return below
      ? below.teeth * 1.13 ** (i - below.i)
      : (above as { teeth: number; i: number }).teeth / 1.1 ** ((above as { i: number }).i - i);
  };
  const result: number[] = [];
  for (let i = 0; i < slots.length; i++) result.push(Math.max(Math.round(at(i)), (result.at(-1) ?? 6) + 1));
  return result;
}

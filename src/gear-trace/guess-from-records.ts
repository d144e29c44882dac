import type { Bike } from '../drivetrain/bike.ts';
import type { RideLog } from '../ride-log/ride-log.ts';

const MIN_COGS = 5;
const MAX_COGS = 13;

/** A chain ring that nobody recorded: a middling size, which the rollout of usual wheels then corrects. */
const USUAL_RING = 40;

/**
 * Reads a drivetrain off the gear records of one or many rides: as many cogs as the highest position seen (else as tooth
 * counts seen), each with the teeth most often recorded there. Positions never used are filled in evenly.
 *
 * @returns null where fewer than two cogs were ever recorded
 */
export function guessFromRecords(logs: readonly RideLog[]): Bike | null {
  const rear = collect(logs, 'rear');
  const front = collect(logs, 'front');
  const cassette = sizes(rear, true, MIN_COGS, MAX_COGS);
  if (!cassette || rear.byPosition.size + rear.teeth.size < 2) return null;
  const chainrings = sizes(front, false, 1, 3) ?? [USUAL_RING];
  return { name: 'bike read from the gear records', chainrings, cassette, actuation: 'electronic' };
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
function sizes({ byPosition, teeth }: Collected, fromLargest: boolean, least: number, most: number): number[] | null {
  const highest = Math.max(0, ...byPosition.keys());
  if (highest < 1 || highest > most) {
    const listed = [...teeth].sort((a, b) => a - b);
    if (listed.length === 0 || listed.length > most) return null;
    return padded(listed, least);
  }
  const count = Math.max(highest, least);
  const slots = Array.from({ length: count }, (_, i) => {
    const seen = byPosition.get(fromLargest ? count - i : i + 1);
    const commonest = seen ? [...seen].filter(([t]) => t > 0).sort((a, b) => b[1] - a[1])[0] : undefined;
    return commonest ? commonest[0] : 0;
  });
  return filled(slots);
}

/** Adds larger sizes until there are enough to be a cassette. */
function padded(listed: number[], least: number): number[] {
  const all = [...listed];
  while (all.length < least) all.push(Math.round((all.at(-1) as number) * 1.15) + 1);
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

import { greatest } from 'd3-array';
import { type Bike, possibleBike } from '../../drivetrain/bike.ts';
import { COG_TEETH, COGS, RING_TEETH, RINGS } from '../../drivetrain/tooth-limits.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { placeOf, type RecordedPart, recordedGears } from '../commands/recorded-gears.ts';

/** Cogs that are made up: so many times their neighbour to complete a cassette, and beyond the largest and the smallest one known. */
const MADE_UP_STEP = { padded: 1.15, larger: 1.13, smaller: 1.1 };
/** A chain ring that nobody recorded: a middling size, which the rollout of usual wheels then corrects. */
const USUAL_RING = 40;

/**
 * Reads a drivetrain off the gear records of one or many rides: as many cogs as the highest position seen (else as tooth
 * counts seen), each with the teeth most often recorded there. Positions never used are filled in evenly.
 *
 * @returns null where fewer than two cogs were ever recorded, or sizes that no bike has
 */
export function guessFromRecords(logs: readonly RideLog[]): Bike | null {
  const { rear, front } = partsOf(logs);
  if (cogsNamed(rear) < 2) return null;
  const cassette = sizes(rear, COGS, COG_TEETH);
  if (!cassette) return null;
  const chainrings = sizes(front, RINGS, RING_TEETH) ?? [USUAL_RING];
  return possibleBike({ name: 'bike read from the gear records', chainrings, cassette, actuation: 'electronic' });
}

/** In words, why `guessFromRecords` makes no bike of these rides. */
export function whyNoBike(logs: readonly RideLog[]): string {
  const { rear } = partsOf(logs);
  const positions = all(rear.map((part) => part.positions));
  const teeth = all(rear.map((part) => part.sizes));
  if (!namesCogs(logs)) return 'they name one cog at most';
  if (teeth.length === 0) return `they name positions (${positions.join(', ')}) and no teeth`;
  return positions.length === 0
    ? `no bike has the cogs that they name (${teeth.join(', ')})`
    : `no bike has the cogs that they name (positions ${positions.join(', ')}; teeth ${teeth.join(', ')})`;
}

interface Limits {
  readonly least: number;
  readonly most: number;
}

function partsOf(logs: readonly RideLog[]): { rear: RecordedPart[]; front: RecordedPart[] } {
  const gears = logs.map(({ gearRecords }) => recordedGears(gearRecords));
  return { rear: gears.map(({ rear }) => rear), front: gears.map(({ front }) => front) };
}

/** All values of these lists, each once, rising. */
const all = (lists: readonly (readonly number[])[]): number[] => [...new Set(lists.flat())].sort((a, b) => a - b);

/** Whether the records name two cogs at least, by position or by teeth. */
export const namesCogs = (logs: readonly RideLog[]): boolean => cogsNamed(partsOf(logs).rear) > 1;

const cogsNamed = (rear: readonly RecordedPart[]): number =>
  Math.max(all(rear.map(({ positions }) => positions)).length, all(rear.map((part) => part.sizes)).length);

/** Sizes from the smallest up; null where nothing was recorded. */
function sizes(parts: readonly RecordedPart[], { least, most }: Limits, teethLimits: Limits): number[] | null {
  const highest = all(parts.map(({ positions }) => positions)).at(-1) ?? 0;
  if (highest > 0 && highest <= most) return filled(commonestTeeth(parts, Math.max(highest, least)));
  const listed = all(parts.map((part) => part.sizes));
  if (listed.length === 0 || listed.length > most) return null;
  return padded(listed, least, teethLimits);
}

/** The teeth most often recorded at each of `count` places (the fewest of several as often), the smallest cog first; 0 where none were. */
function commonestTeeth(parts: readonly RecordedPart[], count: number): number[] {
  const times = Array.from({ length: count }, () => new Map<number, number>());
  for (const part of parts)
    part.teeth.forEach((teeth, record) => {
      const place = placeOf(part, record, count);
      if (teeth > 0 && place >= 0) times[place].set(teeth, (times[place].get(teeth) ?? 0) + 1);
    });
  return times.map((seen) => greatest([...seen], (a, b) => a[1] - b[1] || b[0] - a[0])?.[0] ?? 0);
}

/** Adds larger sizes, and smaller ones where the largest is reached, until there are enough to be a cassette. */
function padded(listed: number[], least: number, teeth: Limits): number[] {
  const all = [...listed];
  while (all.length < least) {
    const larger = Math.round((all.at(-1) as number) * MADE_UP_STEP.padded) + 1;
    if (larger <= teeth.most) all.push(larger);
    else all.unshift(Math.round(all[0] / MADE_UP_STEP.padded) - 1);
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
      ? below.teeth * MADE_UP_STEP.larger ** (i - below.i)
      : (above as { teeth: number; i: number }).teeth / MADE_UP_STEP.smaller ** ((above as { i: number }).i - i);
  };
  const result: number[] = [];
  for (let i = 0; i < slots.length; i++)
    result.push(Math.max(Math.round(at(i)), (result.at(-1) ?? COG_TEETH.least - 1) + 1));
  return result;
}

import { maxIndex, range } from 'd3-array';
import type { Direction } from '../../shifts/ride-events.ts';
import type { Cause } from '../causes.ts';
import { smallGapBreadth } from '../imagined-bike/faulty-setup.ts';
import type { Observed, ShiftCount } from '../observed.ts';

/** Standard errors by which a rate has to lie above another for the counts to show it. An assumption of ours. */
const CLEARLY = 2;
/** Crank turns by which clean shifts have to be slower to be worth a word. An assumption of ours. */
const PLAINLY_SLOWER = 0.1;
/** Share of the cassette below the cogs that a small gap troubles as a rule. */
const USUAL_GAP_FROM = 0.7;

/** Shifts on which a cause shows, and those it is held against. */
interface Sides {
  readonly there: ShiftCount;
  readonly elsewhere: ShiftCount;
}

/** Shifts of a count that came late or not at all. */
export const lateOrMissed = (count: ShiftCount): number => count.late + count.missed;

/** How many standard errors the rate there lies above the one elsewhere (two proportions, pooled); 0 with nothing to compare. */
function excess({ there, elsewhere }: Sides): number {
  const pooled = (lateOrMissed(there) + lateOrMissed(elsewhere)) / (there.shifts + elsewhere.shifts);
  const error = Math.sqrt(pooled * (1 - pooled) * (1 / there.shifts + 1 / elsewhere.shifts));
  const above = lateOrMissed(there) / there.shifts - lateOrMissed(elsewhere) / elsewhere.shifts;
  return error > 0 && Number.isFinite(error) ? above / error : 0;
}

/** Shifts in a direction onto cogs from one on, and those onto the cogs below it. */
export const countsOf = (seen: Observed, direction: Direction, from: number): Sides => ({
  there: seen.shifts(direction, (cog) => cog >= from),
  elsewhere: seen.shifts(direction, (cog) => cog < from),
});

/** First cog that a small gap seems to trouble: how far it reaches differs, so it is where the counts part best. */
export function gapFrom(seen: Observed): number {
  const { length } = seen.cassette;
  const splits = range(Math.ceil(length * (1 - smallGapBreadth[1])), length - 1);
  const best = splits[maxIndex(splits, (from) => excess(countsOf(seen, 'to-larger', from)))];
  return excess(countsOf(seen, 'to-larger', best)) > 0 ? best : Math.ceil(length * USUAL_GAP_FROM);
}

/** Where a cause shows, as a direction and a rule for cogs; null where it shows by no such place. */
export function placeOf(cause: Cause, seen: Observed): { direction: Direction; onto: (cog: number) => boolean } | null {
  const last = seen.cassette.length - 1;
  const from = cause === 'pulley-gap-small' ? gapFrom(seen) : 0;
  switch (cause) {
    case 'cable-tension-low':
      return { direction: 'to-larger', onto: () => true };
    case 'cable-tension-high':
    case 'cable-friction':
      return { direction: 'to-smaller', onto: () => true };
    case 'low-limit-tight':
      return { direction: 'to-larger', onto: (cog) => cog === last };
    case 'high-limit-tight':
      return { direction: 'to-smaller', onto: (cog) => cog === 0 };
    case 'pulley-gap-small':
      return { direction: 'to-larger', onto: (cog) => cog >= from };
    default:
      return null;
  }
}

/** Says of the likeliest cause where the counts of late and missed shifts do not show it by themselves, and what does. */
export function unshownSentences(cause: Cause, seen: Observed): string[] {
  const place = placeOf(cause, seen);
  if (!place || seen.all.shifts === 0) return [];
  const { direction, onto } = place;
  const there = seen.shifts(direction, onto);
  const elsewhere = { ...there, shifts: seen.all.shifts - there.shifts };
  elsewhere.late = seen.all.late - there.late;
  elsewhere.missed = seen.all.missed - there.missed;
  if (excess({ there, elsewhere }) >= CLEARLY) return [];
  const all = seen.cleanTurns();
  const turns = seen.cleanTurns(direction, onto);
  const slower = turns - all > PLAINLY_SLOWER;
  return [
    `These counts do not show it by themselves: ${
      slower
        ? `the clean shifts among them took ${turns.toFixed(2)} turns of the crank, those of all ${all.toFixed(2)}`
        : 'it is what explains best how long each shift took and how sure its outcome is, all taken together'
    }.`,
  ];
}

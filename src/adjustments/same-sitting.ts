import { HOUR_MS } from '../numeric/time-units.ts';
import type { Adjustment } from './adjustment.ts';

type Entry = Pick<Adjustment, 'at'>;

/** Entries further apart are not taken for one piece of work, though nobody rode between. An assumption of ours. */
const LONGEST_SITTING_MS = 12 * HOUR_MS;

/**
 * Whether two entries are of one sitting at the bike: half a day apart at most, and no riding begins between them. Then nobody knows by their times
 * which was done first, for they tell when it was logged, and the order of work goes before them.
 *
 * @param ridingMs when riding began, Unix milliseconds
 */
export function sameSitting(one: Entry, other: Entry, ridingMs: readonly number[]): boolean {
  const [from, to] = [Date.parse(one.at), Date.parse(other.at)].sort((a, b) => a - b);
  return to - from <= LONGEST_SITTING_MS && !ridingMs.some((ms) => ms >= from && ms < to);
}

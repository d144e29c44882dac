import { duration } from '../words/numbers.ts';

/** Before so many are done and so much time has passed, the pace is a guess. Limits of ours. */
const FEWEST_DONE = 2;
const SHORTEST_MS = 5_000;

/**
 * About how long the rest takes at the pace so far, in words; null while that is too early to say.
 *
 * @example timeLeft({ done: 10, left: 20, tookMs: 60_000 }) // 'about 2 min'
 */
export function timeLeft({ done, left, tookMs }: { done: number; left: number; tookMs: number }): string | null {
  if (left === 0 || done < FEWEST_DONE || tookMs < SHORTEST_MS) return null;
  const seconds = ((tookMs / done) * left) / 1000;
  return seconds < 60 ? 'less than a minute' : `about ${duration(seconds)}`;
}

/** How many are done and left, and about how long that takes: "12 of 50 done, 38 left, about 9 min". */
export class Progress {
  #startedMs: number | null = null;

  constructor(private readonly now: () => number = () => performance.now()) {}

  /** @param worked how many of those that are done took work: one that was refused tells nothing of the pace */
  words(done: number, all: number, worked: number): string {
    this.#startedMs ??= this.now();
    const left = all - done;
    const time = timeLeft({ done: worked, left, tookMs: this.now() - this.#startedMs });
    return `${done} of ${all} done${left > 0 ? `, ${left} left` : ''}${time === null ? '' : `, ${time}`}`;
  }
}

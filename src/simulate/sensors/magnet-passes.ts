/** The passes of a magnet that a device reckons with at one moment. */
interface LatestPasses {
  /** Time since the last pass, s. */
  readonly silentS: number;
  /** Turns between the first and the last pass reckoned with, and the time they took, s. */
  readonly turns: number;
  readonly spanS: number;
  /** Time that the last of these turns took, s. */
  readonly lastTurnS: number;
}

/**
 * A magnet that passes a sensor once a turn. `events`: times of the passes, s, rising. `windowS`: the span of past turns that the
 * device reckons with; at least the last turn.
 */
export class MagnetPasses {
  #latest = -1;
  readonly #events: readonly number[];
  readonly #windowS: number;

  constructor(events: readonly number[], windowS: number) {
    this.#events = events;
    this.#windowS = windowS;
  }

  /** Number of passes seen so far. */
  get seen(): number {
    return this.#latest + 1;
  }

  /** The passes until a moment; null before the second one. Calls must come with rising `timeS`. */
  until(timeS: number): LatestPasses | null {
    const events = this.#events;
    while (this.#latest + 1 < events.length && events[this.#latest + 1] <= timeS) this.#latest++;
    const latest = this.#latest;
    if (latest < 1) return null;
    let first = latest - 1;
    while (first > 0 && events[latest] - events[first] < this.#windowS) first--;
    return {
      silentS: timeS - events[latest],
      turns: latest - first,
      spanS: events[latest] - events[first],
      lastTurnS: events[latest] - events[latest - 1],
    };
  }
}

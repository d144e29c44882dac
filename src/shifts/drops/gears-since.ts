import type { RideTrace } from '../../gear-trace/gear-trace.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { IDLE_W } from './rider-power.ts';

/** The last seconds' trace may follow the very spin in question, and must not explain it away. */
const TRACE_UNTIL_S = 4;
/** A command this soon after a record may have been carried out with it. */
const COMMAND_AHEAD_S = 1;

/**
 * The gears asked for or ridden from one record to another, both of which only move on. While the first stays they are gathered record by
 * record, so that a bike that stands for hours costs no more than one that rolls; they are gathered anew where it moves.
 */
export class GearsSince {
  /** The largest cog among them; -1 without any. */
  largest = -1;
  /** Their rings; -1 where one was not recorded. */
  readonly rings = new Set<number>();
  readonly #log: RideLog;
  readonly #trace: RideTrace;
  #first = -1;
  #command = 0;
  #traced = 0;

  constructor(log: RideLog, trace: RideTrace) {
    this.#log = log;
    this.#trace = trace;
  }

  /** Takes the gears from record `first` to record `last`, and returns itself. */
  between(first: number, last: number): this {
    if (first !== this.#first) this.#beginAt(first);
    const { timeS, powerW } = this.#log;
    const { commands, cog, ring } = this.#trace;
    const untilS = timeS[last] + COMMAND_AHEAD_S;
    const to = Math.min(commands.timeS.length - 1, commands.latest[last] + 1);
    for (; this.#command <= to && commands.timeS[this.#command] <= untilS; this.#command++) {
      this.largest = Math.max(this.largest, commands.cog[this.#command]);
      this.rings.add(commands.ring[this.#command]);
    }
    for (; this.#traced <= last && timeS[last] - timeS[this.#traced] >= TRACE_UNTIL_S; this.#traced++) {
      // the ratio of legs that do nothing passes gears on which the chain never was; the first record tells where it lay
      if (powerW[this.#traced] < IDLE_W && this.#traced > first) continue;
      this.largest = Math.max(this.largest, cog[this.#traced]);
      if (ring[this.#traced] >= 0) this.rings.add(ring[this.#traced]);
    }
    return this;
  }

  #beginAt(first: number): void {
    this.#first = first;
    this.#command = Math.max(0, this.#trace.commands.latest[first]);
    this.#traced = first;
    this.largest = -1;
    this.rings.clear();
  }
}

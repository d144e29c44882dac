import type { Transition } from '../../hmm/transition.ts';

/** Index of the state in which the speed drifts; the other is 0. */
export const UNSTEADY = 1;

/** How long a speed stays steady, and how long it drifts, s (assumptions of ours). */
const STEADY_S = 1000;
const DRIFTS_S = 90;
const RATE = 1 / STEADY_S + 1 / DRIFTS_S;
const SHARE_UNSTEADY = 1 / STEADY_S / RATE;

/** A speed that is steady or drifts, each for a time that has no memory: over longer steps both approach their usual shares. */
export class SteadyOrNot implements Transition {
  readonly states = 2;
  readonly initial = Float64Array.of(1 - SHARE_UNSTEADY, SHARE_UNSTEADY);

  constructor(private readonly timeS: Float64Array) {}

  forward(t: number, from: Float64Array, to: Float64Array): void {
    const kept = this.kept(t);
    const sum = from[0] + from[1];
    for (let state = 0; state < 2; state++) to[state] = kept * from[state] + (1 - kept) * sum * this.initial[state];
  }

  backward(t: number, from: Float64Array, to: Float64Array): void {
    const kept = this.kept(t);
    const usual = this.initial[0] * from[0] + this.initial[1] * from[1];
    for (let state = 0; state < 2; state++) to[state] = kept * from[state] + (1 - kept) * usual;
  }

  /** Share that has not changed state since the record before. */
  private kept(t: number): number {
    return Math.exp(-RATE * (this.timeS[t] - this.timeS[t - 1]));
  }
}

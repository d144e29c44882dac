/** Seconds of pedalling by log development. Bin b covers `lowest + b * width` to `lowest + (b + 1) * width`. */
export interface DevelopmentHistogram {
  readonly lowest: number;
  readonly width: number;
  readonly seconds: Float64Array;
  readonly totalS: number;
}

/** Developments that bicycles have, as the log of metres a crank turn, and the width of a bin. */
const LOWEST = Math.log(0.6);
const HIGHEST = Math.log(14);
const WIDTH = 0.004;
/** A record speaks for no longer a step before it: these are weights of levels, not a count of time. */
const LONGEST_STEP_S = 3;

/** A histogram of developments that is being filled. */
export class GrowingHistogram implements DevelopmentHistogram {
  readonly lowest = LOWEST;
  readonly width = WIDTH;
  readonly seconds = new Float64Array(Math.ceil((HIGHEST - LOWEST) / WIDTH));
  totalS = 0;

  /** Counts a record for the step before it; NaN and developments that no gear has are passed over. */
  add(logDevelopment: number, stepS: number): void {
    const bin = Math.floor((logDevelopment - LOWEST) / WIDTH);
    if (!(bin >= 0 && bin < this.seconds.length)) return;
    const dt = Math.min(stepS, LONGEST_STEP_S);
    this.seconds[bin] += dt;
    this.totalS += dt;
  }
}

import type { Transition } from './transition.ts';

/** Posterior of every state at every step (row-major, steps x states; each row sums to 1) and the log likelihood of all observations. */
export interface Posterior {
  readonly probability: Float32Array;
  readonly logLikelihood: number;
}

/**
 * Forward-backward recursion with a rescaling at every step (Rabiner 1989, section V.A), so that it neither under- nor
 * overflows however long the sequence. Linear in the number of steps.
 *
 * @param logEmission row-major, steps x states: log likelihood of the step's observation in each state. A row of equal
 *   values says nothing (a missing observation). -Infinity rules a state out; a row ruled out whole is taken as missing.
 * @param initial probability of each state at the first step, sums to 1
 * @returns an empty posterior with log likelihood 0 when there are no steps
 */
export function forwardBackward(logEmission: Float32Array, transition: Transition, initial: Float64Array): Posterior {
  const states = transition.states;
  const steps = logEmission.length / states;
  const probability = new Float32Array(steps * states);
  if (steps === 0) return { probability, logLikelihood: 0 };
  const emission = new Float64Array(states);
  const current = new Float64Array(states);
  const next = new Float64Array(states);
  let logLikelihood = 0;

  current.set(initial);
  for (let t = 0; t < steps; t++) {
    if (t > 0) {
      transition.forward(t, current, next);
      current.set(next);
    }
    logLikelihood += emissionRow(logEmission, t * states, emission);
    for (let s = 0; s < states; s++) current[s] *= emission[s];
    logLikelihood += Math.log(normalise(current));
    probability.set(current, t * states);
  }

  const behind = new Float64Array(states).fill(1);
  const weighted = new Float64Array(states);
  for (let t = steps - 1; t >= 0; t--) {
    const row = t * states;
    let sum = 0;
    for (let s = 0; s < states; s++) {
      current[s] = probability[row + s] * behind[s];
      sum += current[s];
    }
    // Forward rows are kept in single precision; where rounding left nothing, the forward row alone decides.
    if (sum > 0) for (let s = 0; s < states; s++) probability[row + s] = current[s] / sum;
    if (t === 0) break;
    emissionRow(logEmission, row, emission);
    for (let s = 0; s < states; s++) weighted[s] = emission[s] * behind[s];
    normalise(weighted);
    transition.backward(t, weighted, behind);
    normalise(behind);
  }
  return { probability, logLikelihood };
}

/** Writes exp(row - its maximum) and returns that maximum; a row without any finite value becomes all ones. */
function emissionRow(logEmission: Float32Array, row: number, into: Float64Array): number {
  let top = Number.NEGATIVE_INFINITY;
  for (let s = 0; s < into.length; s++) if (logEmission[row + s] > top) top = logEmission[row + s];
  if (top === Number.NEGATIVE_INFINITY) {
    into.fill(1);
    return 0;
  }
  for (let s = 0; s < into.length; s++) into[s] = Math.exp(logEmission[row + s] - top);
  return top;
}

/** Scales to sum 1 and returns the old sum; a vector of zeros becomes uniform. */
function normalise(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  if (!(sum > 0)) {
    values.fill(1 / values.length);
    return Number.MIN_VALUE;
  }
  for (let i = 0; i < values.length; i++) values[i] /= sum;
  return sum;
}

/** Most probable path and its log probability. */
export interface Path {
  readonly states: Int16Array;
  readonly logProbability: number;
}

/**
 * Most probable path through a chain with one dense transition matrix (Viterbi 1967), in logarithms.
 *
 * @param logEmission row-major, steps x states
 * @param logTransition row-major, states x states, from row to column; -Infinity forbids a step
 * @param logInitial log probability of each state at the first step
 * @returns an empty path with log probability 0 when there are no steps
 */
export function viterbi(logEmission: Float64Array, logTransition: Float64Array, logInitial: Float64Array): Path {
  const count = logInitial.length;
  const steps = logEmission.length / count;
  const path = new Int16Array(steps);
  if (steps === 0) return { states: path, logProbability: 0 };
  const cameFrom = new Int16Array(steps * count);
  let best = Float64Array.from(logInitial, (value, s) => value + logEmission[s]);
  for (let t = 1; t < steps; t++) {
    const next = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
    for (let j = 0; j < count; j++) {
      for (let i = 0; i < count; i++) {
        const reached = best[i] + logTransition[i * count + j];
        if (reached > next[j]) {
          next[j] = reached;
          cameFrom[t * count + j] = i;
        }
      }
      next[j] += logEmission[t * count + j];
    }
    best = next;
  }
  let state = 0;
  for (let s = 1; s < count; s++) if (best[s] > best[state]) state = s;
  const logProbability = best[state];
  for (let t = steps - 1; t >= 0; t--) {
    path[t] = state;
    state = cameFrom[t * count + state];
  }
  return { states: path, logProbability };
}

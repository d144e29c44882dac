/**
 * Moves a distribution over states one step on. Implementations hold the structure (dense, banded, factored), so that
 * the recursions need not know it. Neither method may keep or change its input.
 */
export interface Transition {
  readonly states: number;
  /** `to[j]` = sum over i of `from[i]` x P(step t goes i -> j). `t` is the index of the step's later observation, 1 on. */
  forward(t: number, from: Float64Array, to: Float64Array): void;
  /** `to[i]` = sum over j of P(step t goes i -> j) x `from[j]`. */
  backward(t: number, from: Float64Array, to: Float64Array): void;
}

/**
 * The same dense matrix at every step.
 *
 * @param matrix row-major, `states` x `states`, each row sums to 1
 */
export function denseTransition(matrix: Float64Array, states: number): Transition {
  return {
    states,
    forward(_t, from, to) {
      to.fill(0);
      for (let i = 0; i < states; i++) {
        const mass = from[i];
        if (mass === 0) continue;
        for (let j = 0; j < states; j++) to[j] += mass * matrix[i * states + j];
      }
    },
    backward(_t, from, to) {
      for (let i = 0; i < states; i++) {
        let sum = 0;
        for (let j = 0; j < states; j++) sum += matrix[i * states + j] * from[j];
        to[i] = sum;
      }
    },
  };
}

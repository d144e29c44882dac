import type { Transition } from '../../src/hmm/transition.ts';

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

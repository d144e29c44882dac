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

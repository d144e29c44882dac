import { logGamma } from './log-gamma.ts';

/** One Dirichlet distribution of a mixture: shares that sum to 1, how many trials they count for, and the component's weight. */
export interface DirichletComponent {
  readonly weight: number;
  readonly trials: number;
  /** All over 0. */
  readonly shares: readonly number[];
}

/**
 * Posterior mean of the shares of several outcomes, whose prior is a mixture of Dirichlet distributions, after `counts` of each
 * were seen. Each component is updated by itself and weighed by how well it foretold the counts (Dirichlet-multinomial
 * likelihood). Counts may be fractions, as in expectation-maximization.
 *
 * Source: Sjölander, Karplus, Brown, Hughey, Krogh, Mian and Haussler 1996, equations for the posterior mean of a mixture.
 *
 * @returns shares, as many as there are counts, summing to 1
 */
export function dirichletMixtureMean(components: readonly DirichletComponent[], counts: readonly number[]): number[] {
  const seen = counts.reduce((sum, count) => sum + count, 0);
  const logs = components.map(({ weight, trials, shares }) => {
    let log = Math.log(weight) + logGamma(trials) - logGamma(trials + seen);
    shares.forEach((share, i) => {
      log += logGamma(trials * share + counts[i]) - logGamma(trials * share);
    });
    return log;
  });
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return counts.map((count, i) =>
    components.reduce(
      (sum, { trials, shares }, c) => sum + ((weights[c] / total) * (trials * shares[i] + count)) / (trials + seen),
      0,
    ),
  );
}

import { logSumExp } from '../numeric/log-sum-exp.ts';
import { type AssumptionName, causePriors, evidenceWeights } from './assumptions.ts';
import { type Cause, causes } from './causes.ts';
import { assumptionShare } from './draw-setup.ts';
import type { WeighedDraws } from './weigh-causes.ts';

/** Probability of each cause, in the order of `causes`; sums to 1. */
export type CauseProbabilities = readonly number[];

/** Changes to what is taken for granted: priors multiplied, or an assumption held to a part of its range. */
export interface PosteriorVariation {
  readonly priorFactor?: Partial<Record<Cause, number>>;
  readonly held?: { readonly name: AssumptionName; readonly from: number; readonly to: number };
  /** Power of the likelihood, 1 by default: below 1 the same evidence counts less. */
  readonly evidencePower?: number;
}

/** Prior of each cause for the bike, in the order of `causes`; sums to 1. */
export function priorOf(electronic: boolean, factor: Partial<Record<Cause, number>> = {}): number[] {
  const table = causePriors[electronic ? 'electronic' : 'cable'];
  const weights = causes.map((cause) => table[cause] * (factor[cause] ?? 1));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

/**
 * Posterior over the causes: the mean likelihood of each cause's draws times its prior, then mixed with the prior by
 * the probability that the whole model is wrong, so that no verdict gets surer than the model deserves.
 */
export function posterior(weighed: WeighedDraws, variation: PosteriorVariation = {}): CauseProbabilities {
  const { draws, points, logLikelihood } = weighed;
  const { held, evidencePower = 1 } = variation;
  const rows: number[] = [];
  for (let row = 0; row < draws; row++) {
    const share = held ? assumptionShare(points, row, held.name) : 0;
    if (!held || (share >= held.from && share < held.to)) rows.push(row);
  }
  const prior = priorOf(weighed.bike.electronic, variation.priorFactor);
  const scores = causes.map(
    (_, c) => Math.log(prior[c]) + logSumExp(rows.map((row) => evidencePower * logLikelihood[c * draws + row])),
  );
  const total = logSumExp(scores);
  return scores.map(
    (score, c) => (1 - evidenceWeights.modelWrong) * Math.exp(score - total) + evidenceWeights.modelWrong * prior[c],
  );
}

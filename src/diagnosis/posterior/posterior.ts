import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { type AssumptionName, causePriors, evidenceWeights } from '../assumptions.ts';
import { type Cause, causes } from '../causes.ts';
import { assumptionShare } from '../imagined-bike/draw.ts';
import type { WeighedCause, WeighedCauses } from './weigh-causes.ts';

/** Probability of each cause, in the order of `causes`; sums to 1. */
export type CauseProbabilities = readonly number[];

/** Changes to what is taken for granted. */
export interface PosteriorVariation {
  /** Priors are multiplied by these and scaled to sum to 1 again. */
  readonly priorFactor?: Partial<Record<Cause, number>>;
  /** An assumption held to a part of its spread, as shares 0 to 1. */
  readonly held?: { readonly name: AssumptionName; readonly from: number; readonly to: number };
  /** Power of the likelihood, 1 by default: below 1 the same evidence counts less. */
  readonly evidencePower?: number;
}

/** Prior of each cause for the bike, in the order of `causes`; sums to 1. */
function priorOf(electronic: boolean, factor: Partial<Record<Cause, number>> = {}): number[] {
  const table = causePriors[electronic ? 'electronic' : 'cable'];
  const weights = causes.map((cause) => table[cause] * (factor[cause] ?? 1));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

/** Log of the mean likelihood of a cause's imagined bikes. */
function logMarginal(weighed: WeighedCause, { held, evidencePower = 1 }: PosteriorVariation = {}): number {
  const logs: number[] = [];
  for (let row = 0; row < weighed.count; row++) {
    const share = held ? assumptionShare(weighed.points, row, held.name) : 0;
    if (held && (share < held.from || share >= held.to)) continue;
    logs.push(evidencePower * weighed.logLikelihood[row] + weighed.logWeight[row]);
  }
  return logSumExp(logs) - Math.log(weighed.count * (held ? held.to - held.from : 1));
}

/** Log of each cause's weight in the verdict, in the order of `causes`, up to a common term. */
function scoresOf({ model, weighed }: WeighedCauses, variation: PosteriorVariation): number[] {
  const prior = priorOf(model.bike.electronic, variation.priorFactor);
  return weighed.map((one, c) => Math.log(prior[c]) + evidenceWeights.verdict * logMarginal(one, variation));
}

/** Probability, given the evidence, that an assumption lies in a part of its spread. */
export function heldProbability(weighed: WeighedCauses, held: NonNullable<PosteriorVariation['held']>): number {
  const scores = scoresOf(weighed, {});
  const total = logSumExp(scores);
  const within = weighed.weighed.map((one, c) => scores[c] - total + logMarginal(one, { held }) - logMarginal(one));
  return Math.min(1, (held.to - held.from) * Math.exp(logSumExp(within)));
}

/**
 * Posterior over the causes: the mean likelihood of each cause's imagined bikes, to the power `evidenceWeights.verdict`, times its
 * prior, then mixed with the prior by the probability that the whole model is wrong, so that no verdict gets surer than the model
 * deserves. The power is that of a model known to be inexact (Holmes and Walker 2017): one shift misread, or one habit of the
 * sensors, speaks for the same cause again and again.
 */
export function posterior(weighed: WeighedCauses, variation: PosteriorVariation = {}): CauseProbabilities {
  const prior = priorOf(weighed.model.bike.electronic, variation.priorFactor);
  const scores = scoresOf(weighed, variation);
  const total = logSumExp(scores);
  const wrong = evidenceWeights.modelWrong;
  return scores.map((score, c) => (1 - wrong) * Math.exp(score - total) + wrong * prior[c]);
}

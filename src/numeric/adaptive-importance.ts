import { latinHypercube } from './latin-hypercube.ts';
import { logSumExp } from './log-sum-exp.ts';
import { logistic } from './logistic.ts';
import type { SeededRandom } from './seeded-random.ts';

/** Points of the unit cube with the log likelihood of each and the log weight that makes up for how they were drawn. */
export interface WeightedPoints {
  readonly count: number;
  /** Row after row: value `d` of point `i` at `i * dimensions + d`. */
  readonly points: Float64Array;
  readonly logLikelihood: Float64Array;
  /** log(uniform density / density drawn from); the mean of exp(logWeight) tends to 1. */
  readonly logWeight: Float64Array;
}

/** Where a stage drew from: in every dimension a logistic distribution on the logit scale. Centre 0, width 1 is uniform. */
interface Proposal {
  readonly centre: Float64Array;
  readonly width: Float64Array;
  readonly count: number;
}

/** A proposal and log(its density / uniform density) at every point so far. */
interface Stage {
  readonly proposal: Proposal;
  logs: Float64Array;
}

const LOGISTIC_DEVIATION = Math.PI / Math.sqrt(3);
const logit = (u: number): number => Math.log(u / (1 - u));
const logDensity = (z: number): number => -Math.abs(z) - 2 * Math.log1p(Math.exp(-Math.abs(z)));

/** Effective number of points under weights exp(power * logLikelihood + logWeight): Kish's (sum w)^2 / sum w^2. */
function effectiveCount(power: number, logLikelihood: Float64Array, logWeight: Float64Array): number {
  const logs = logLikelihood.map((value, i) => power * value + logWeight[i]);
  return Math.exp(2 * logSumExp(logs) - logSumExp(logs.map((value) => 2 * value)));
}

/** The greatest power of the likelihood, at most 1, under which at least `wanted` points still count. */
function tamedPower(wanted: number, logLikelihood: Float64Array, logWeight: Float64Array): number {
  if (effectiveCount(1, logLikelihood, logWeight) >= wanted) return 1;
  let low = 0;
  let high = 1;
  for (let i = 0; i < 14; i++) {
    const middle = (low + high) / 2;
    if (effectiveCount(middle, logLikelihood, logWeight) >= wanted) low = middle;
    else high = middle;
  }
  return low;
}

/** Fits a proposal to what was found so far. Dimensions whose shift is no more than chance stay uniform. */
function fitProposal(found: WeightedPoints, logits: Float64Array, count: number, wanted: number): Proposal {
  const dimensions = logits.length / found.count;
  const power = tamedPower(wanted, found.logLikelihood, found.logWeight);
  const logs = found.logLikelihood.map((value, i) => power * value + found.logWeight[i]);
  const total = logSumExp(logs);
  const weights = logs.map((value) => Math.exp(value - total));
  const centre = new Float64Array(dimensions);
  const width = new Float64Array(dimensions).fill(1);
  for (let d = 0; d < dimensions; d++) {
    let mean = 0;
    let square = 0;
    for (let i = 0; i < found.count; i++) {
      if (weights[i] < 1e-7) continue;
      const z = logits[i * dimensions + d];
      mean += weights[i] * z;
      square += weights[i] * z * z;
    }
    const deviation = Math.sqrt(Math.max(1e-6, square - mean * mean));
    const chance = (2 * LOGISTIC_DEVIATION) / Math.sqrt(wanted);
    const narrowed = deviation / LOGISTIC_DEVIATION;
    if (Math.abs(mean) < chance && narrowed > 0.75) continue;
    centre[d] = mean;
    width[d] = Math.min(1, Math.max(0.25, 1.15 * narrowed));
  }
  return { centre, width, count };
}

/** log(density of the proposal / uniform density) at every point, given by its logits. */
function logProposal({ centre, width }: Proposal, logits: Float64Array): Float64Array {
  const dimensions = centre.length;
  const logs = new Float64Array(logits.length / dimensions);
  for (let d = 0; d < dimensions; d++) {
    if (centre[d] === 0 && width[d] === 1) continue;
    const logWidth = Math.log(width[d]);
    for (let row = 0; row < logs.length; row++) {
      const z = logits[row * dimensions + d];
      logs[row] += logDensity((z - centre[d]) / width[d]) - logWidth - logDensity(z);
    }
  }
  return logs;
}

const joined = (a: Float64Array, b: Float64Array): Float64Array => {
  const both = new Float64Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
};

/**
 * Adaptive multiple importance sampling (Cornuet, Marin, Mira and Robert 2012) over the unit cube, begun with uniform
 * points whose log likelihoods are known. Each stage draws more where the likelihood is, and all points are weighed by
 * the mixture of all stages, so the first, uniform ones keep the weights bounded.
 */
export class AdaptiveImportance {
  private readonly stages: Stage[];
  /** Logits of all points. */
  private logits: Float64Array;
  /** Every point so far; logSumExp(logLikelihood + logWeight) - log(count) estimates the log of the mean likelihood. */
  found: WeightedPoints;

  constructor(
    first: { readonly points: Float64Array; readonly logLikelihood: Float64Array },
    private readonly dimensions: number,
    private readonly random: SeededRandom,
    private readonly evaluate: (points: Float64Array, row: number) => number,
  ) {
    const count = first.logLikelihood.length;
    const uniform = { centre: new Float64Array(dimensions), width: new Float64Array(dimensions).fill(1), count };
    this.logits = first.points.map(logit);
    this.stages = [{ proposal: uniform, logs: new Float64Array(count) }];
    this.found = { ...first, count, logWeight: new Float64Array(count) };
  }

  /** Draws `count` points more where the likelihood was found so far. */
  drawStage(count: number): void {
    const { found, dimensions } = this;
    const proposal = fitProposal(found, this.logits, count, Math.min(60, found.count / 8));
    const drawn = latinHypercube(count, dimensions, this.random);
    for (let i = 0; i < drawn.length; i++) {
      const d = i % dimensions;
      const z = proposal.centre[d] + proposal.width[d] * logit(drawn[i]);
      drawn[i] = Math.min(1 - 1e-12, Math.max(1e-12, logistic(z)));
    }
    const likelihoods = Float64Array.from({ length: count }, (_, row) => this.evaluate(drawn, row));
    const logits = drawn.map(logit);
    for (const stage of this.stages) stage.logs = joined(stage.logs, logProposal(stage.proposal, logits));
    this.logits = joined(this.logits, logits);
    this.stages.push({ proposal, logs: logProposal(proposal, this.logits) });
    this.found = {
      count: found.count + count,
      points: joined(found.points, drawn),
      logLikelihood: joined(found.logLikelihood, likelihoods),
      logWeight: this.weighed(found.count + count),
    };
  }

  /** Log weight of every point under the mixture of all stages. */
  private weighed(count: number): Float64Array {
    const shares = this.stages.map(({ proposal }) => Math.log(proposal.count / count));
    const each = new Float64Array(shares.length);
    return Float64Array.from({ length: count }, (_, row) => {
      for (let s = 0; s < each.length; s++) each[s] = shares[s] + this.stages[s].logs[row];
      return -logSumExp(each);
    });
  }
}

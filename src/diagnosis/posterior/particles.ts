import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { type SeededRandom, seededRandom } from '../../numeric/seeded-random.ts';
import { type Cause, causes } from '../causes.ts';
import type { Draw } from '../imagined-bike/draw.ts';
import { faultySetup } from '../imagined-bike/faulty-setup.ts';
import type { Setup } from '../imagined-bike/setup.ts';
import { isGone, type OnsetOption } from '../likelihood/onset-options.ts';
import type { CauseProbabilities } from './posterior.ts';
import type { WeighedCauses } from './weigh-causes.ts';

/** One imagined bike that the evidence has left standing. All particles are equally likely. */
export interface Particle {
  readonly cause: Cause;
  readonly draw: Draw;
  readonly onset: OnsetOption;
  /** How the bike was when the fault had just come, and how it is after the last adjustment. */
  readonly atFirst: Setup;
  readonly now: Setup;
  readonly healthy: Setup;
}

const PARTICLE_COUNT = 400;

/** Rows of weights picked evenly: the wanted number of them, in proportion (systematic resampling, Kitagawa 1996). */
function systematicPick(weights: ArrayLike<number>, wanted: number, random: SeededRandom): number[] {
  let total = 0;
  for (let i = 0; i < weights.length; i++) total += weights[i];
  const picked: number[] = [];
  const step = total / wanted;
  let reached = random.uniform() * step;
  let sum = 0;
  for (let i = 0; i < weights.length && picked.length < wanted; i++) {
    sum += weights[i];
    while (reached < sum && picked.length < wanted) {
      picked.push(i);
      reached += step;
    }
  }
  return picked;
}

/** Imagined bikes with one cause's fault, in proportion to how well they explain the evidence. */
export function particlesOf({ model, weighed }: WeighedCauses, cause: Cause, wanted: number): Particle[] {
  const random = seededRandom(31, 'particles', cause);
  const { logLikelihood, logWeight, points } = weighed[causes.indexOf(cause)];
  const logs = logLikelihood.map((value, i) => value + logWeight[i]);
  const rows = systematicPick(inProportion(logs), wanted, random);
  return rows.map((row) => {
    const bike = model.imagine(points, row);
    const [option] = systematicPick(inProportion(model.onsetLogLikelihoods(cause, bike)), 1, random);
    const onset = model.options[option ?? 0];
    const atFirst = faultySetup(cause, bike.draw, bike.healthy);
    const lastPeriod = model.evidence.groups.length;
    const now =
      cause === 'no-fault'
        ? model.setupInOrder(bike, lastPeriod)
        : isGone(onset)
          ? bike.healthy
          : model.setupInPeriod(atFirst, bike, model.firstPeriod(onset), lastPeriod);
    return { cause, draw: bike.draw, onset, atFirst, now, healthy: bike.healthy };
  });
}

function inProportion(logs: Float64Array): Float64Array {
  const total = logSumExp(logs);
  return logs.map((value) => Math.exp(value - total));
}

/** Draws particles from the posterior over causes, sizes and ways of beginning. The same input gives the same ones. */
export function drawParticles(weighed: WeighedCauses, probabilities: CauseProbabilities): Particle[] {
  const picked = systematicPick(probabilities, PARTICLE_COUNT, seededRandom(31, 'causes'));
  return causes.flatMap((cause, c) => {
    const wanted = picked.filter((index) => index === c).length;
    return wanted === 0 ? [] : particlesOf(weighed, cause, wanted);
  });
}

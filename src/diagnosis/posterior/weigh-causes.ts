import { AdaptiveImportance, type WeightedPoints } from '../../numeric/adaptive-importance.ts';
import { latinHypercube } from '../../numeric/latin-hypercube.ts';
import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { seededRandom } from '../../numeric/seeded-random.ts';
import { type Cause, causes } from '../causes.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { DRAW_DIMENSIONS } from '../imagined-bike/draw.ts';
import { CauseModel, type ModelBike } from '../likelihood/cause-model.ts';

/** One cause's imagined bikes, weighed against the evidence. */
export interface WeighedCause extends WeightedPoints {
  readonly cause: Cause;
}

/** Every cause's imagined bikes, in the order of `causes`, and the model that weighed them. */
export interface WeighedCauses {
  readonly model: CauseModel;
  readonly weighed: readonly WeighedCause[];
}

/** A cause whose best bikes lie this far behind the best of all (log likelihood) after the trial stages is not looked at more closely. */
const HOPELESS = 18;

/** Stages that every cause gets: the first, evenly spread bikes alone hardly find a fault that fits in a corner of its sizes. */
const TRIAL_STAGES = 1;

/** With half as many the verdict hung on the draws of the stages: where a fault fits in a corner of its sizes alone, the first of them hardly find it. */
const STAGES = 6;

/** Numbers of draws that keep the work within bounds: fewer when adjustments ask for many states of each. */
function drawCounts(periods: number): { first: number; stage: number } {
  const scale = 1 / Math.sqrt((periods * (periods + 1)) / 2);
  return { first: Math.round(750 * scale), stage: Math.round(300 * scale) };
}

/**
 * Weighs every cause's imagined bikes against the evidence: first the same bikes for every cause, then for each cause
 * more bikes like its best ones, and most for those that are not hopeless. The same evidence gives the same numbers.
 */
export function weighCauses(evidence: RidingEvidence, bike: ModelBike, seed = 20): WeighedCauses {
  const model = new CauseModel(evidence, bike);
  const { first, stage } = drawCounts(evidence.groups.length + 1);
  const points = latinHypercube(first, DRAW_DIMENSIONS, seededRandom(seed, 'diagnosis'));
  const likelihoods = causes.map(() => new Float64Array(first));
  for (let row = 0; row < first; row++) {
    const bikes = model.imagine(points, row);
    causes.forEach((cause, c) => {
      likelihoods[c][row] = logSumExp(model.onsetLogLikelihoods(cause, bikes));
    });
  }
  const searches = causes.map(
    (cause, c) =>
      new AdaptiveImportance(
        { points, logLikelihood: likelihoods[c] },
        DRAW_DIMENSIONS,
        seededRandom(seed, 'diagnosis', cause),
        (drawn, row) => logSumExp(model.onsetLogLikelihoods(cause, model.imagine(drawn, row))),
      ),
  );
  for (const search of searches) drawStages(search, stage, TRIAL_STAGES);
  const best = searches.map(({ found }) => Math.max(...found.logLikelihood));
  const bestOfAll = Math.max(...best);
  searches.forEach((search, c) => {
    if (best[c] > bestOfAll - HOPELESS) drawStages(search, stage, STAGES - TRIAL_STAGES);
  });
  return { model, weighed: searches.map(({ found }, c) => ({ cause: causes[c], ...found })) };
}

function drawStages(search: AdaptiveImportance, count: number, stages: number): void {
  for (let i = 0; i < stages; i++) search.drawStage(count);
}

import { latinHypercube } from '../numeric/latin-hypercube.ts';
import { logSumExp } from '../numeric/log-sum-exp.ts';
import { seededRandom } from '../numeric/seeded-random.ts';
import { adjustSetup } from './adjust-setup.ts';
import type { Evidence } from './build-evidence.ts';
import { causes } from './causes.ts';
import { type Draw, drawDimensions, faultySetup, healthySetup, readDraw } from './draw-setup.ts';
import { type OnsetOption, onsetLogPriors, onsetOptions } from './onset-options.ts';
import { emptyRates, fillRates, type PulleyRates } from './pulley-rates.ts';
import { type PreparedSegment, prepareSegments, segmentLogLikelihood } from './segment-likelihood.ts';
import type { Setup } from './setup.ts';

/** The bike, as far as the model needs it. */
export interface ModelBike {
  readonly cassetteLength: number;
  readonly cogPitchMm: number;
  readonly electronic: boolean;
}

/**
 * Every imagined bike weighed against the evidence. `logLikelihood[cause * draws + draw]` is summed over the ways the
 * fault can begin; `logOnset` holds the single ways: `[(cause * draws + draw) * options + option]`, prior included.
 */
export interface WeighedDraws {
  readonly bike: ModelBike;
  readonly evidence: Evidence;
  readonly draws: number;
  readonly points: Float64Array;
  readonly options: readonly OnsetOption[];
  readonly logLikelihood: Float64Array;
  readonly logOnset: Float64Array;
}

/** Usage of each cog over all segments, the most used one at 1. */
export function cogUsage(evidence: Evidence, cassetteLength: number): Float64Array {
  const usage = new Float64Array(cassetteLength);
  for (const segment of evidence.segments)
    for (let cog = 0; cog < cassetteLength; cog++) usage[cog] += segment.pedallingS[cog];
  const most = Math.max(...usage, 1e-9);
  return usage.map((value) => Math.max(1e-3, value / most));
}

/** The setup halfway between healthy and faulty. */
function halfway(healthy: Setup, faulty: Setup): Setup {
  const middle = { ...faulty };
  for (const key of Object.keys(faulty) as (keyof Setup)[]) middle[key] = (healthy[key] + faulty[key]) / 2;
  middle.pivot = faulty.pivot;
  return middle;
}

/** The setup in a period when the fault was already there in the period `since`: all adjustments between have moved it. */
export function setupInPeriod(
  faulty: Setup,
  healthy: Setup,
  since: number,
  period: number,
  evidence: Evidence,
  draw: Draw,
): Setup {
  const moved = { ...faulty };
  for (let group = since; group < period; group++)
    for (const adjustment of evidence.groups[group].adjustments) adjustSetup(moved, healthy, adjustment, draw);
  return moved;
}

/** Draws that keep the work within bounds: fewer when adjustments ask for many states of each. */
function drawCount(periods: number): number {
  return Math.round(1200 / Math.sqrt((periods * (periods + 1)) / 2));
}

/** Weighs every cause's imagined bikes against the evidence. Deterministic: the same evidence gives the same numbers. */
export function weighCauses(evidence: Evidence, bike: ModelBike): WeighedDraws {
  const prepared = prepareSegments(evidence.segments);
  const segmentCount = prepared.length;
  const periods = evidence.groups.length + 1;
  const draws = drawCount(periods);
  const points = latinHypercube(draws, drawDimensions, seededRandom(20, 'diagnosis'));
  const options = onsetOptions(segmentCount);
  const priors = causes.map((cause) => onsetLogPriors(cause, options, evidence.segments, evidence.groups));
  const usage = cogUsage(evidence, bike.cassetteLength);
  const rates = emptyRates(bike.cassetteLength);
  const logLikelihood = new Float64Array(causes.length * draws);
  const logOnset = new Float64Array(causes.length * draws * options.length).fill(Number.NEGATIVE_INFINITY);
  const healthyLog = new Float64Array(segmentCount);
  const fullLog = Array.from({ length: periods }, () => new Float64Array(segmentCount));
  const halfLog = new Float64Array(segmentCount);

  for (let row = 0; row < draws; row++) {
    const draw = readDraw(points, row);
    const healthy = healthySetup(draw, bike.cogPitchMm, bike.electronic);
    fillRates(healthy, usage, rates);
    for (let s = 0; s < segmentCount; s++) healthyLog[s] = segmentLogLikelihood(prepared[s], rates);
    causes.forEach((cause, c) => {
      const at = c * draws + row;
      const slot = logOnset.subarray(at * options.length, (at + 1) * options.length);
      if (cause === 'no-fault') slot[0] = healthyLog.reduce((sum, value) => sum + value, 0);
      else {
        const faulty = faultySetup(cause, draw, healthy);
        for (let since = 0; since < periods; since++)
          fillPeriods(prepared, rates, usage, since, fullLog[since], (period) =>
            setupInPeriod(faulty, healthy, since, period, evidence, draw),
          );
        const gradual = options.some((option, i) => option.kind === 'gradual' && priors[c][i] > Math.log(0.02));
        if (gradual) {
          const half = halfway(healthy, faulty);
          fillPeriods(prepared, rates, usage, 0, halfLog, (period) =>
            setupInPeriod(half, healthy, 0, period, evidence, draw),
          );
        }
        options.forEach((option, i) => {
          if (option.kind === 'gradual' && !gradual) return;
          slot[i] = priors[c][i] + onsetLog(option, prepared, healthyLog, halfLog, fullLog);
        });
      }
      logLikelihood[at] = logSumExp(slot);
    });
  }
  return { bike, evidence, draws, points, options, logLikelihood, logOnset };
}

/** Log likelihood of every segment from period `since` on, with the setup of its period. */
function fillPeriods(
  prepared: readonly PreparedSegment[],
  rates: PulleyRates,
  usage: Float64Array,
  since: number,
  into: Float64Array,
  setupOf: (period: number) => Setup,
): void {
  let filled = -1;
  prepared.forEach((one, s) => {
    const { period } = one.segment;
    if (period < since) return;
    if (period !== filled) fillRates(setupOf(period), usage, rates);
    filled = period;
    into[s] = segmentLogLikelihood(one, rates);
  });
}

function onsetLog(
  option: OnsetOption,
  prepared: readonly PreparedSegment[],
  healthyLog: Float64Array,
  halfLog: Float64Array,
  fullLog: readonly Float64Array[],
): number {
  const since = option.kind === 'sudden' ? prepared[option.fullFrom].segment.period : 0;
  let sum = 0;
  for (let s = 0; s < prepared.length; s++)
    sum += s < option.halfFrom ? healthyLog[s] : s < option.fullFrom ? halfLog[s] : fullLog[since][s];
  return sum;
}

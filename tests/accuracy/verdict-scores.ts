import { causes } from '../../src/diagnosis/causes.ts';

/** A verdict whose truth is known. */
export interface ScoredVerdict {
  readonly truth: string;
  readonly ranked: readonly { readonly cause: string; readonly probability: number }[];
}

interface VerdictScores {
  readonly count: number;
  readonly top1: number;
  readonly top2: number;
  /** Mean of -ln(probability given to the truth). */
  readonly logLoss: number;
  /** Mean over cases of the summed squared error over causes (0 best, 2 worst). */
  readonly brier: number;
  /** Mean probability of the named cause less the share in which it was right, in points. */
  readonly overconfidence: number;
}

/** How much each verdict counts. */
export type Weigh = (one: ScoredVerdict) => number;

const alike: Weigh = () => 1;

/** NaN figures for an empty list. */
export function scoreVerdicts(verdicts: readonly ScoredVerdict[], weigh: Weigh = alike): VerdictScores {
  const all = verdicts.reduce((sum, one) => sum + weigh(one), 0);
  const mean = (value: (one: ScoredVerdict) => number): number =>
    verdicts.reduce((sum, one) => sum + weigh(one) * value(one), 0) / all;
  const right = (one: ScoredVerdict, places: number): number =>
    one.ranked.slice(0, places).some(({ cause }) => cause === one.truth) ? 1 : 0;
  const top1 = mean((one) => right(one, 1));
  return {
    count: verdicts.length,
    top1,
    top2: mean((one) => right(one, 2)),
    logLoss: mean(({ ranked, truth }) => -Math.log(ranked.find(({ cause }) => cause === truth)?.probability ?? 0)),
    brier: mean(({ ranked, truth }) =>
      ranked.reduce((sum, { cause, probability }) => sum + (probability - (cause === truth ? 1 : 0)) ** 2, 0),
    ),
    overconfidence: 100 * (mean(({ ranked }) => ranked[0].probability) - top1),
  };
}

/**
 * Counts each verdict so that the causes come as often as `priors` say, whatever the number of bikes of each. Probabilities that are
 * right for bikes as they come cannot be right for a list in which every cause stands equally often.
 */
export function asPriorsHave(verdicts: readonly ScoredVerdict[], priors: Readonly<Record<string, number>>): Weigh {
  const counts = new Map<string, number>();
  for (const { truth } of verdicts) counts.set(truth, (counts.get(truth) ?? 0) + 1);
  const sum = [...counts.keys()].reduce((total, truth) => total + priors[truth], 0);
  return ({ truth }) => ((priors[truth] / sum) * verdicts.length) / (counts.get(truth) ?? 0);
}

interface CalibrationBin {
  readonly from: number;
  readonly count: number;
  readonly said: number;
  readonly right: number;
}

/** The named causes by the probability they were given, in tenths. */
export function calibrationBins(verdicts: readonly ScoredVerdict[], weigh: Weigh = alike): CalibrationBin[] {
  return Array.from({ length: 10 }, (_, tenth) => {
    const own = verdicts.filter(({ ranked }) => Math.min(9, Math.floor(ranked[0].probability * 10)) === tenth);
    const weight = own.reduce((sum, one) => sum + weigh(one), 0);
    return {
      from: tenth / 10,
      count: own.length,
      said: own.reduce((sum, one) => sum + weigh(one) * one.ranked[0].probability, 0) / weight,
      right: own.reduce((sum, one) => sum + (one.ranked[0].cause === one.truth ? weigh(one) : 0), 0) / weight,
    };
  }).filter(({ count }) => count > 0);
}

/** Rows: the truth; columns: the cause named first; both in the order of `causes`. */
export function confusion(verdicts: readonly ScoredVerdict[]): number[][] {
  return causes.map((truth) =>
    causes.map((named) => verdicts.filter((one) => one.truth === truth && one.ranked[0].cause === named).length),
  );
}

import { causes } from '../../src/diagnosis/causes.ts';

/** A verdict whose truth is known. */
export interface ScoredVerdict {
  readonly truth: string;
  readonly ranked: readonly { readonly cause: string; readonly probability: number }[];
}

export interface VerdictScores {
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

/** NaN figures for an empty list. */
export function scoreVerdicts(verdicts: readonly ScoredVerdict[]): VerdictScores {
  const count = verdicts.length;
  const mean = (value: (one: ScoredVerdict) => number): number =>
    verdicts.reduce((sum, one) => sum + value(one), 0) / count;
  const right = (one: ScoredVerdict, places: number): number =>
    one.ranked.slice(0, places).some(({ cause }) => cause === one.truth) ? 1 : 0;
  const top1 = mean((one) => right(one, 1));
  return {
    count,
    top1,
    top2: mean((one) => right(one, 2)),
    logLoss: mean(({ ranked, truth }) => -Math.log(ranked.find(({ cause }) => cause === truth)?.probability ?? 0)),
    brier: mean(({ ranked, truth }) =>
      ranked.reduce((sum, { cause, probability }) => sum + (probability - (cause === truth ? 1 : 0)) ** 2, 0),
    ),
    overconfidence: 100 * (mean(({ ranked }) => ranked[0].probability) - top1),
  };
}

export interface CalibrationBin {
  readonly from: number;
  readonly count: number;
  readonly said: number;
  readonly right: number;
}

/** The named causes by the probability they were given, in tenths. */
export function calibrationBins(verdicts: readonly ScoredVerdict[]): CalibrationBin[] {
  return Array.from({ length: 10 }, (_, tenth) => {
    const own = verdicts.filter(({ ranked }) => Math.min(9, Math.floor(ranked[0].probability * 10)) === tenth);
    return {
      from: tenth / 10,
      count: own.length,
      said: own.reduce((sum, { ranked }) => sum + ranked[0].probability, 0) / own.length,
      right: own.filter(({ ranked, truth }) => ranked[0].cause === truth).length / own.length,
    };
  }).filter(({ count }) => count > 0);
}

/** Rows: the truth; columns: the cause named first; both in the order of `causes`. */
export function confusion(verdicts: readonly ScoredVerdict[]): number[][] {
  return causes.map((truth) =>
    causes.map((named) => verdicts.filter((one) => one.truth === truth && one.ranked[0].cause === named).length),
  );
}

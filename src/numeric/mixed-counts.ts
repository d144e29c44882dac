import { logGamma } from './log-gamma.ts';

/** Mean over rows of a chance each. */
const meanOver = (rows: ArrayLike<number>, chanceOf: (value: number) => number): number => {
  let sum = 0;
  for (let i = 0; i < rows.length; i++) sum += chanceOf(rows[i]);
  return sum / rows.length;
};

/** Probabilities of 0 to `trials` hits where the chance of one is not known but as likely to be each of `chances` (0 to 1). */
export function mixedBinomial(chances: ArrayLike<number>, trials: number): number[] {
  return Array.from({ length: trials + 1 }, (_, hits) => {
    const ways = Math.exp(logGamma(trials + 1) - logGamma(hits + 1) - logGamma(trials - hits + 1));
    return meanOver(chances, (p) => ways * p ** hits * (1 - p) ** (trials - hits));
  });
}

/** Probabilities of 0 to `most` events where the mean is not known but as likely to be each of `means` (above 0). More events are left out. */
export function mixedPoisson(means: ArrayLike<number>, most: number): number[] {
  return Array.from({ length: most + 1 }, (_, events) =>
    meanOver(means, (mean) => Math.exp(events * Math.log(mean) - mean - logGamma(events + 1))),
  );
}

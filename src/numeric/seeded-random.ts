import { randomExponential, randomNormal } from 'd3-random';

/** A source of random numbers that gives the same numbers for the same seed and label, on every machine. */
export interface SeededRandom {
  /** Uniform in [0, 1). */
  readonly uniform: () => number;
  /** Standard normal. */
  readonly normal: () => number;
  /** Exponential with the given mean. */
  readonly exponential: (mean: number) => number;
  /** Uniform in [low, high). */
  readonly between: (low: number, high: number) => number;
  /** True with the given probability. */
  readonly chance: (probability: number) => boolean;
  /** Whole number in [0, count). */
  readonly integer: (count: number) => number;
  /** One of the values, each as likely as the others. */
  readonly pick: <T>(values: readonly T[]) => T;
}

/** Mixes the bits of a 32-bit word so that neighbouring inputs give unrelated outputs (a bijection). */
function mixBits(word: number): number {
  let h = word | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** Folds a seed and labels into one 32-bit word. */
function hashLabels(seed: number, labels: readonly (string | number)[]): number {
  let hash = mixBits(Math.floor(seed) >>> 0) ^ mixBits(Math.floor(seed / 2 ** 32) ^ 0x9e3779b9);
  for (const label of labels) {
    hash = mixBits(hash + 0x9e3779b9);
    for (const character of String(label)) hash = mixBits(hash ^ (character.codePointAt(0) ?? 0));
  }
  return hash;
}

/** Uniform source with 128 bits of state (a counter and three chaotic words, "sfc32" of the PractRand test suite). */
function chaoticSource(hash: number): () => number {
  let a = mixBits(hash ^ 0x243f6a88);
  let b = mixBits(hash ^ 0x85a308d3);
  let c = mixBits(hash ^ 0x13198a2e);
  let counter = 1;
  const next = (): number => {
    const sum = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return (sum >>> 0) / 2 ** 32;
  };
  for (let i = 0; i < 12; i++) next();
  return next;
}

/**
 * Random numbers for one seed. `labels` name independent streams of that seed, so that drawing more numbers for one
 * purpose never changes another. Distributions are those of d3-random.
 *
 * @example seededRandom(7, 'terrain', 0).uniform() // always the same number
 */
export function seededRandom(seed: number, ...labels: (string | number)[]): SeededRandom {
  const uniform = chaoticSource(hashLabels(seed, labels));
  const normal = randomNormal.source(uniform)(0, 1);
  const unitExponential = randomExponential.source(uniform)(1);
  const integer = (count: number): number => Math.floor(uniform() * count);
  return {
    uniform,
    normal,
    exponential: (mean) => mean * unitExponential(),
    between: (low, high) => low + (high - low) * uniform(),
    chance: (probability) => uniform() < probability,
    integer,
    pick: (values) => values[integer(values.length)],
  };
}

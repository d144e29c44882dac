import type { SeededRandom } from '../../numeric/seeded-random.ts';
import { causes } from '../causes.ts';
import type { LookAhead, PlannedShifts } from '../posterior/look-ahead.ts';

function draws(count: number, probability: number, random: SeededRandom): number {
  let hits = 0;
  for (let i = 0; i < count; i++) if (random.uniform() < probability) hits++;
  return hits;
}

/** Entropy in bits. */
function entropy(weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.reduce((sum, weight) => (weight > 0 ? sum - (weight / total) * Math.log2(weight / total) : sum), 0);
}

/** Imagined outcomes of shifts yet to be ridden: for each imagined truth, the log likelihood of every particle. */
export class ImaginedRides {
  readonly truths: readonly number[];
  private readonly causeOf: Int8Array;

  constructor(
    private readonly lookAhead: Pick<LookAhead, 'particles' | 'expect'>,
    private readonly random: SeededRandom,
    everyNth = 4,
  ) {
    const { particles } = lookAhead;
    this.causeOf = Int8Array.from(particles, ({ cause }) => causes.indexOf(cause));
    this.truths = particles.map((_, i) => i).filter((i) => i % everyNth === 0);
  }

  /** Nothing ridden yet. */
  none(): Float64Array[] {
    return this.truths.map(() => new Float64Array(this.lookAhead.particles.length));
  }

  /** Adds planned shifts to what was ridden. */
  ride(before: readonly Float64Array[], planned: readonly PlannedShifts[]): Float64Array[] {
    const after = before.map((logs) => logs.slice());
    for (const shifts of planned) {
      const { trouble, drop } = this.lookAhead.expect(shifts);
      const [logTrouble, logKept] = [trouble.map(Math.log), trouble.map((p) => Math.log1p(-p))];
      const [logDrop, logStayed] = [drop.map(Math.log), drop.map((p) => Math.log1p(-p))];
      this.truths.forEach((truth, t) => {
        const hits = draws(shifts.count, trouble[truth], this.random);
        const lost = draws(shifts.count, drop[truth], this.random);
        const logs = after[t];
        for (let i = 0; i < logs.length; i++)
          logs[i] +=
            hits * logTrouble[i] +
            (shifts.count - hits) * logKept[i] +
            lost * logDrop[i] +
            (shifts.count - lost) * logStayed[i];
      });
    }
    return after;
  }

  /** Bits of information on the cause that are expected from what was ridden. Never below 0. */
  expectedBits(ridden: readonly Float64Array[]): number {
    const share = (weights: (i: number) => number): number[] => {
      const sums = causes.map(() => 0);
      for (let i = 0; i < this.causeOf.length; i++) sums[this.causeOf[i]] += weights(i);
      return sums;
    };
    const before = entropy(share(() => 1));
    let after = 0;
    for (const logs of ridden) {
      let max = Number.NEGATIVE_INFINITY;
      for (const log of logs) if (log > max) max = log;
      after += entropy(share((i) => Math.exp(logs[i] - max)));
    }
    return Math.max(0, before - after / ridden.length);
  }
}

import type { SeededRandom } from '../../numeric/seeded-random.ts';

/** Spells in which a sensor lies or is silent, as half-open intervals of seconds. */
export interface SensorTroubles {
  /** No cadence, no power. */
  readonly crankSilent: readonly (readonly [number, number])[];
  /** Every second wheel pass is missed. */
  readonly wheelHalved: readonly (readonly [number, number])[];
  /** No speed. */
  readonly speedSilent: readonly (readonly [number, number])[];
}

/** Draws the spells of one ride: short drop-outs every hour or so, a long one now and then, a slipping magnet rarely. */
export function drawTroubles(durationS: number, random: SeededRandom): SensorTroubles {
  const spells = (everyS: number, lengthS: () => number): [number, number][] => {
    const list: [number, number][] = [];
    let at = random.exponential(everyS);
    while (at < durationS) {
      const length = lengthS();
      list.push([at, at + length]);
      at += length + random.exponential(everyS);
    }
    return list;
  };
  const dropOut = (): number => (random.chance(0.06) ? random.between(60, 600) : 2 + random.exponential(8));
  return {
    crankSilent: spells(5400, dropOut),
    wheelHalved: spells(18_000, () => random.between(2, 4.5)),
    speedSilent: spells(12_000, dropOut),
  };
}

/** Whether a moment lies in one of the spells. */
export function within(spells: readonly (readonly [number, number])[], timeS: number): boolean {
  return spells.some(([from, to]) => timeS >= from && timeS < to);
}

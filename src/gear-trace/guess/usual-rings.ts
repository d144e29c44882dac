/** One ring or two that a guess tries, smallest first, and how unusual they are in nats. */
export interface UsualRings {
  readonly rings: readonly number[];
  readonly cost: number;
}

/** Rings that stand alone, the sizes of the larger of two, and the smallest of two, in teeth (from memory, no source). */
const SINGLE = [28, 30, 32, 34, 36, 38, 40, 42, 44, 46, 48, 50, 52];
const LARGE_OF_TWO = { least: 34, most: 54 };
const SMALL_OF_TWO_LEAST = 20;
/** Teeth between two rings, and how unusual that is (from memory, no source). */
const APART: Readonly<Record<number, number>> = { 10: 1, 11: 2, 12: 0.7, 13: 2, 14: 0, 15: 2, 16: 0, 17: 3, 18: 1.7 };
/** The larger of two rings over the smaller. */
const RATIO = { least: 1.28, most: 1.68 };
/** What a large ring with an odd number of teeth costs: they are less usual. */
const ODD_TEETH = 1;
/** Two rings are more parts than one. */
const SECOND_RING = 2;

/** Chainrings worth trying. Ratios leave the common scale of rings and cogs open, so the list need not be complete. */
export const usualRings: readonly UsualRings[] = [
  ...SINGLE.map((ring) => ({ rings: [ring], cost: 0 })),
  ...Object.entries(APART).flatMap(([apart, unusual]) =>
    Array.from({ length: LARGE_OF_TWO.most - LARGE_OF_TWO.least + 1 }, (_, i) => LARGE_OF_TWO.least + i)
      .map((large) => [large - Number(apart), large])
      .filter(
        ([small, large]) => small >= SMALL_OF_TWO_LEAST && large / small >= RATIO.least && large / small <= RATIO.most,
      )
      .map((rings) => ({ rings, cost: SECOND_RING + unusual + ODD_TEETH * (rings[1] % 2) })),
  ),
];

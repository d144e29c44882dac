import type { SeededRandom } from './seeded-random.ts';

/**
 * Latin hypercube sample of the unit cube (McKay, Beckman and Conover 1979): in every dimension each of the `count`
 * equal slices holds exactly one point. Row after row: value `d` of point `i` stands at `i * dimensions + d`, strictly
 * between 0 and 1. The same source of random numbers gives the same points. No library that serves here has it.
 */
export function latinHypercube(count: number, dimensions: number, random: SeededRandom): Float64Array {
  const points = new Float64Array(count * dimensions);
  const slices = Array.from({ length: count }, (_, i) => i);
  for (let d = 0; d < dimensions; d++) {
    for (let i = count - 1; i > 0; i--) {
      const j = random.integer(i + 1);
      [slices[i], slices[j]] = [slices[j], slices[i]];
    }
    for (let i = 0; i < count; i++)
      points[i * dimensions + d] = (slices[i] + Math.min(1 - 1e-9, Math.max(1e-9, random.uniform()))) / count;
  }
  return points;
}

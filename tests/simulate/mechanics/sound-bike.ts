import { seededRandom } from '../../../src/numeric/seeded-random.ts';
import { type BikeCondition, soundCondition } from '../../../src/simulate/mechanics/bike-condition.ts';
import { defaultBike } from '../../../src/simulate/setting/resolve-options.ts';

export const teeth = defaultBike.cassette;

/** A bike with every setting exactly right, changed as asked. */
export function exactBike(changes: Partial<BikeCondition> = {}): BikeCondition {
  const condition = soundCondition(defaultBike, seededRandom(1, 'test-bike'));
  condition.cogErrorMm.fill(0);
  condition.wear.fill(0);
  return Object.assign(condition, { offsetMm: 0, hangerBendRad: 0, frictionN: 1, gapMm: 6, ...changes });
}

import { logSumExp } from '../../numeric/log-sum-exp.ts';
import { mixedBinomial, mixedPoisson } from '../../numeric/mixed-counts.ts';
import { seededRandom } from '../../numeric/seeded-random.ts';
import type { PlannedShifts } from '../posterior/look-ahead.ts';
import { ImaginedRides } from './imagined-rides.ts';
import type { Rivals } from './rivals.ts';

/**
 * Of two causes that start even, what is ridden is to name the right one this often, or it is not worth riding. An assumption of ours; a
 * guess is right in half the cases.
 */
export const TELLS = 0.8;

/** More skips than this tell no more. */
const MOST_SKIPS = 60;

/** How often a count names the right one of two causes that start even, from its probabilities under each. */
const namedRight = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, p, count) => sum + Math.max(p, other[count]), 0) / 2;

/** How often so many shifts alike name the right one of two causes. The chance of trouble on each imagined bike of the one and of the other. */
export const namedByShifts = (one: ArrayLike<number>, other: ArrayLike<number>, shifts: number): number =>
  namedRight(mixedBinomial(one, shifts), mixedBinomial(other, shifts));

/** The same for skips under load within some time, from the skips to be expected on each imagined bike. */
export const namedBySkips = (one: ArrayLike<number>, other: ArrayLike<number>): number =>
  namedRight(mixedPoisson(one, MOST_SKIPS), mixedPoisson(other, MOST_SKIPS));

/** Each imagined bike rides the plan so often: a few rides alone are chance. */
const RIDES_EACH = 5;

/** How often a whole plan names the right one of two causes: on each of their imagined bikes in turn, weighed against all others. */
export function namedByPlan({ lookAhead, rows }: Rivals, planned: readonly PlannedShifts[]): number {
  const rides = new ImaginedRides(lookAhead, seededRandom(53, 'two causes'), 1);
  const all = Array.from({ length: RIDES_EACH }, () => rides.ride(rides.none(), planned));
  const meanLikelihood = (logs: Float64Array, own: readonly number[], truth: number): number => {
    const others = own.filter((row) => row !== truth);
    return logSumExp(others.map((row) => logs[row])) - Math.log(others.length);
  };
  const rightShare = (own: readonly number[], other: readonly number[]): number => {
    const isRight = (logs: Float64Array, truth: number): boolean =>
      meanLikelihood(logs, own, truth) > meanLikelihood(logs, other, truth);
    const right = all.flatMap((ridden) => own.filter((truth) => isRight(ridden[truth], truth)));
    return right.length / (RIDES_EACH * own.length);
  };
  return (rightShare(rows[0], rows[1]) + rightShare(rows[1], rows[0])) / 2;
}

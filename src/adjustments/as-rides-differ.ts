import { sum } from 'd3-array';
import type { TroubleCount } from './compare-rates.ts';

/**
 * Rates of trouble of a bike on which nobody laid a hand differ from ride to ride by this share, standard deviation over mean: other ground, other
 * loads, other cogs, and how well each ride can be read. An assumption of ours.
 */
const RIDES_DIFFER = 0.15;

/**
 * Counts of one ride after another as one, each ride counted for as many shifts as it is worth where rates differ from ride to ride:
 * n / (1 + n v² p / (1 - p)) of its n, with the rate p of all of them and v by which rides differ (design effect of the beta-binomial
 * distribution). Of a long ride full of trouble little more is learnt after some dozens of shifts; of one with hardly any each counts.
 */
export function asRidesDiffer(rides: readonly TroubleCount[]): TroubleCount {
  const shifts = sum(rides, (ride) => ride.shifts);
  const rate = Math.min(0.5, sum(rides, ({ trouble }) => trouble) / Math.max(1, shifts));
  const share = (ride: TroubleCount): number => 1 / (1 + (ride.shifts * RIDES_DIFFER ** 2 * rate) / (1 - rate));
  return {
    shifts: sum(rides, (ride) => ride.shifts * share(ride)),
    trouble: sum(rides, (ride) => ride.trouble * share(ride)),
  };
}

import { type Cause, causes } from '../causes.ts';
import { standsOut } from '../now/still-there.ts';
import { particlesOf } from './particles.ts';
import type { CauseProbabilities } from './posterior.ts';
import type { WeighedCauses } from './weigh-causes.ts';

/** Share of the imagined bikes in order that a wrong turn has put out by the newest ride, by the fault that it made of them. */
export type SpoiledShares = ReadonlyMap<Cause, number>;

/** So many imagined bikes in order are asked. */
const ASKED = 200;

/**
 * How many of the imagined bikes that were in order at their first ride stand out by now on the side of each of some faults.
 *
 * @param faults those that turning may have brought about, see `faultsTurnedTo`
 */
export function spoiledShares(weighed: WeighedCauses, faults: readonly Cause[]): SpoiledShares {
  if (faults.length === 0) return new Map();
  const { model } = weighed;
  const newest = model.evidence.segments.findLast(({ placed }) => placed)?.period ?? 0;
  const setups = particlesOf(weighed, 'no-fault', ASKED).map((bike) => model.setupInOrder(bike, newest));
  const first = setups.map((setup) => faults.find((fault) => standsOut(fault, setup)));
  return new Map(faults.map((fault) => [fault, first.filter((one) => one === fault).length / setups.length]));
}

/**
 * The causes' probabilities where bikes in order that a wrong turn has put out count as the fault that it made of them: what is asked is
 * what is wrong, not who did it.
 *
 * @param probabilities in the order of `causes`
 */
export function withSpoiled(probabilities: CauseProbabilities, shares: SpoiledShares): CauseProbabilities {
  const none = probabilities[causes.indexOf('no-fault')];
  const spoiled = [...shares.values()].reduce((sum, share) => sum + share, 0);
  return probabilities.map((p, c) =>
    causes[c] === 'no-fault' ? p * (1 - spoiled) : p + none * (shares.get(causes[c]) ?? 0),
  );
}

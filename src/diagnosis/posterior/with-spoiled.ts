import { type Cause, causes } from '../causes.ts';
import type { CauseProbabilities } from './posterior.ts';

/** Share of the imagined bikes in order that a wrong turn has put out by the newest ride, by the fault that it made of them. */
export type SpoiledShares = ReadonlyMap<Cause, number>;

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

import type { Cause } from '../causes.ts';
import { particlesOf } from '../posterior/particles.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';
import { foretoldTrouble } from './foretold-trouble.ts';
import { seenTrouble } from './seen-trouble.ts';
import { type UnexplainedPlace, unexplainedPlaces } from './unexplained-places.ts';

/** A cause at least so likely may explain a place, beside those that the verdict names. */
export const IN_QUESTION_FROM = 0.05;
/** So many imagined bikes of each cause foretell what was to be expected. */
const BIKES = 60;

/** What the likeliest cause leaves unexplained, where no other in question explains everything either. */
export interface Unexplained {
  readonly places: readonly UnexplainedPlace[];
  readonly by: Cause;
}

/** The causes that the verdict names or that may yet be it, likeliest first. */
export const causesInQuestion = (
  ranked: readonly { readonly cause: Cause; readonly probability: number }[],
  named: readonly Cause[],
): Cause[] =>
  ranked
    .filter(({ cause, probability }) => named.includes(cause) || probability >= IN_QUESTION_FROM)
    .map(({ cause }) => cause);

/**
 * Looks beside the verdict for shifts that go wrong where the likeliest cause foretells none. Null where it, or any other cause in
 * question, explains all that was seen.
 *
 * @param inQuestion at least one, the likeliest first
 */
export function findUnexplained(weighed: WeighedCauses, inQuestion: readonly Cause[]): Unexplained | null {
  const { model } = weighed;
  const seen = seenTrouble(model.evidence, model.bike.cassetteLength);
  if (!seen.some(({ trouble }) => trouble > 0)) return null;
  const left = inQuestion.map((cause) =>
    unexplainedPlaces(seen, foretoldTrouble(model, particlesOf(weighed, cause, BIKES))),
  );
  return left.every((places) => places.length > 0) ? { places: left[0], by: inQuestion[0] } : null;
}

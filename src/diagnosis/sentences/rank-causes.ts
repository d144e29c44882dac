import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { helpedForSure } from '../../adjustments/helped-for-sure.ts';
import { causes } from '../causes.ts';
import type { CauseVerdict } from '../diagnosis.ts';
import type { Observed } from '../observed.ts';
import { failedPlainly, type PlainTrouble } from '../unexplained/plain-trouble.ts';
import { evidenceSentences } from './evidence-sentences.ts';
import { adjustmentSentences, tells } from './story-sentences.ts';
import { unshownSentences } from './where-it-shows.ts';

/** What the sentences about a cause are made from. */
interface Known {
  readonly seen: Observed;
  /** Shifts that plainly fail, as they do on no bike in order; null without any. */
  readonly failsPlainly: PlainTrouble | null;
  /** Whether power was recorded with enough shifts to tell what hard pedalling does. */
  readonly loadKnown: boolean;
  readonly comparisons: readonly AdjustmentComparison[];
}

/**
 * Every cause with the sentences that speak for or against it, likeliest first; the likeliest also with what it does not explain.
 *
 * @param probabilities in the order of `causes`
 */
export function rankCauses(
  probabilities: readonly number[],
  { seen, failsPlainly, loadKnown, comparisons }: Known,
): readonly [CauseVerdict, ...CauseVerdict[]] {
  const partsReplaced = comparisons.some((one) => one.skipping && tells(one));
  const [first, ...others] = causes
    .map((cause, c) => ({
      cause,
      probability: probabilities[c],
      evidence: [...evidenceSentences(cause, seen, partsReplaced), ...adjustmentSentences(cause, comparisons)],
    }))
    .sort((a, b) => b.probability - a.probability);
  // what work on the bike put right was not done by the legs
  const notByLoad = loadKnown || comparisons.some(helpedForSure);
  const plainly = failsPlainly ? [failedPlainly(failsPlainly, seen.cassette, notByLoad)] : [];
  const more = [...plainly, ...unshownSentences(first.cause, seen)];
  return [{ ...first, evidence: [...first.evidence, ...more] }, ...others];
}

import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import { endCogBeforeAndAfter } from '../../adjustments/end-cog-words.ts';
import { helpedForSure } from '../../adjustments/helped-for-sure.ts';
import { cameBackWords, growthWords, oppositeInShort } from '../../adjustments/hidden-words.ts';
import { isTogether, madeTogether } from '../../adjustments/made-together.ts';
import { amountWords } from '../../adjustments/parameter-words.ts';
import { skipsBeforeAndAfter } from '../../adjustments/skip-words.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { listed } from '../../numeric/listed.ts';
import { utcDay, utcMoment } from '../../numeric/moment-words.ts';
import { chance } from '../../numeric/percent.ts';
import type { Cause } from '../causes.ts';
import type { Onset } from '../diagnosis.ts';
import { touches } from './touches.ts';

const trouble = (period: AdjustmentComparison['before']): string =>
  `${figure(period.late + period.missed + period.overshot)} of ${figure(period.shifts)}`;

/** "29 of 218 shifts went wrong before (164 shifts from before it began left out), 23 of 197 after". */
function beforeAndAfter({ before, after, leftOut, endCog, skipping }: AdjustmentComparison): string {
  if (skipping) return skipsBeforeAndAfter(skipping);
  const from = leftOut.before > 0 ? ` (${counted(leftOut.before, 'shift')} from before it began left out)` : '';
  const until = leftOut.after > 0 ? ` (${counted(leftOut.after, 'shift')} from when it began on left out)` : '';
  if (endCog) return endCogBeforeAndAfter(endCog) + from + until;
  return `${trouble(before)} shifts went wrong before${from}, ${trouble(after)} after${until}`;
}

/** Whether there is a before and an after to set against one another. */
export function tells({ endCog, skipping, before, after }: AdjustmentComparison): boolean {
  if (skipping) return skipping.before.hours > 0 && skipping.after.hours > 0;
  return endCog ? endCog.before.shifts > 0 && endCog.after.shifts > 0 : before.shifts > 0 && after.shifts > 0;
}

/** What an adjustment did, to append; nothing where that is not decided. */
function verdictWords(comparison: AdjustmentComparison, it: string): string {
  const { probabilityBetter, cameBack, wentOnGrowing, oppositeWays, skipping } = comparison;
  if (skipping) return skipping.probabilityFewer >= DECIDED_AT ? `: ${it} helped` : '';
  if (cameBack) return `: ${cameBackWords({ ...cameBack, at: new Date(cameBack.fromMs).toISOString() })}`;
  if (wentOnGrowing) return `: ${growthWords(wentOnGrowing)}`;
  if (oppositeWays) return `: ${oppositeInShort(oppositeWays)}`;
  if (probabilityBetter >= DECIDED_AT) return `: ${it} helped`;
  return probabilityBetter <= 1 - DECIDED_AT ? `: ${it} made shifting worse` : '';
}

/**
 * What the adjustments that touch a cause did: shifts gone wrong before and after, once for those made together. One with nothing judged
 * before it, or after, speaks for no cause.
 */
export function adjustmentSentences(cause: Cause, comparisons: readonly AdjustmentComparison[]): string[] {
  const told = comparisons.filter((one) => touches(cause, one.parameter) && tells(one));
  const sentences = madeTogether(told).map((made) => {
    const [one] = made;
    const verdict = verdictWords(one, made.length > 1 ? 'together they' : 'it');
    const all = comparisons.filter((other) => isTogether(one, other)).length;
    const others = all > made.length ? ' (together with other work)' : '';
    return `${utcDay(one.at)}, ${made.map(amountWords).join(' and ')}${others}: ${beforeAndAfter(one)}${verdict}.`;
  });
  return told.some((one) => tellsGapsApart(cause, one)) ? [...sentences, GAP_BY_ITS_CURE] : sentences;
}

/** How a fault began is not said on the toss of a coin. */
const LIKELIER_THAN_NOT = 0.5;

/** A gap that is too small and one that is too large are easily taken for one another by the shifts alone, so an earlier report may have named the other. */
const GAP_BY_ITS_CURE =
  'Too close and too far look much alike in a log: it is the turn that helped which tells them apart, whatever was named before it.';

/** Whether an entry turned a gap the way that a cause asks for and helped for sure. */
const tellsGapsApart = (cause: Cause, one: AdjustmentComparison): boolean =>
  one.parameter === 'pulley-gap' &&
  helpedForSure(one) &&
  (cause === 'pulley-gap-small' ? (one.amount ?? 0) > 0 : cause === 'pulley-gap-large' && (one.amount ?? 0) < 0);

/**
 * How the likeliest fault began; nothing where no way is likelier than all others together. That it was there from the first ride on says something only beside a second ride.
 *
 * @param rides how many rides were weighed
 * @param namedAlone whether that fault is; where it is not likely enough, or open between it and another, all is said of the case that it is the one
 * @param adjustments what was done to the bike: what lies between the last ride without the fault and the first with it is told beside it
 */
export function onsetSentence(
  onset: Onset,
  rides: number,
  namedAlone: boolean,
  adjustments: readonly AdjustmentComparison[],
): string[] {
  const began = beganWords(onset, rides, adjustments);
  if (began === null || onset.probability <= LIKELIER_THAN_NOT) return [];
  const sure = `(${chance(onset.probability)})`;
  return [namedAlone ? `It ${began} ${sure}.` : `If it is this, it ${began} ${sure}.`];
}

/** ", with low limit screw +0.75 turns on 2026-05-04 between them", to append; nothing where nothing was done between two moments. */
function workBetween(adjustments: readonly AdjustmentComparison[], from: string, to: string): string {
  const between = adjustments.filter(({ at }) => Date.parse(at) > Date.parse(from) && Date.parse(at) <= Date.parse(to));
  if (between.length === 0) return '';
  return `, with ${listed(between.map((one) => `${amountWords(one)} on ${utcDay(one.at)}`))} between them`;
}

function beganWords(
  { kind, at, rideBeforeAt }: Onset,
  rides: number,
  adjustments: readonly AdjustmentComparison[],
): string | null {
  if (kind === 'sudden' && at)
    return rideBeforeAt
      ? `began suddenly, between the ride of ${utcMoment(rideBeforeAt)} and that of ${utcMoment(at)}${workBetween(adjustments, rideBeforeAt, at)}`
      : `began suddenly, about ${utcMoment(at)}`;
  if (kind === 'gradual') return 'grew over the rides';
  return kind === 'steady' && rides > 1 ? 'was there from the first ride on' : null;
}

import { FURTHEST_SHIFTS, isDecided } from '../../adjustments/compare-rates.ts';
import { causePhrase } from '../../diagnosis/cause-words.ts';
import { FEWEST_SHIFTS } from '../../diagnosis/fewest-shifts.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { byDirection } from './by-direction.ts';
import { asDecided, howSurely } from './how-surely.ts';
import { limitVerdict } from './limit-verdict.ts';
import { type Compared, moreToTell, type Told } from './more-to-tell.ts';
import { rateWithInterval } from './number-words.ts';
import { skipVerdict } from './skip-verdict.ts';
import { whatAllHides } from './what-all-hides.ts';

/** Said of an adjustment that shares its before and after with another. */
export const NOT_TOLD_APART = 'No shift was judged between this and other work, so their shares cannot be told apart.';

/** Whether an adjustment helped, in sentences with the numbers before and after: for a limit screw those of its end cog, for a chain or cassette the skips. */
export const adjustmentVerdict = (adjustment: AdjustmentReport): string => verdictSentences(adjustment).join(' ');

/** The same, a sentence each. */
export function verdictSentences(made: AdjustmentReport): string[] {
  const { sharedPeriod, leftOut, endCog, skipping, parameter, wrongWayFor, helpedAgainst } = made;
  if (made.cancelledOut) return ['Turned and taken back with no ride between: there is nothing to judge.'];
  // what is taken back first is not ridden on until it is decided
  const adjustment = wrongWayFor ? { ...made, shiftsStillNeeded: 0 } : made;
  const sentences = endCog
    ? limitVerdict(endCog, adjustment)
    : skipping
      ? [...skipVerdict(skipping), ...(changedShifts(adjustment) ? overallVerdict(adjustment) : [])]
      : overallVerdict(adjustment);
  if (leftOut.before + leftOut.after > 0)
    sentences.push(
      `Left out of this because a fault began suddenly: ${[leftOut.before > 0 && `${counted(leftOut.before, 'shift')} before it began`, leftOut.after > 0 && `${counted(leftOut.after, 'shift')} from then on`].filter(Boolean).join(' and ')}.`,
    );
  if (wrongWayFor)
    sentences.push(
      `It was the wrong way for ${causePhrase(wrongWayFor, parameter === 'index-offset')}: take it back first.`,
    );
  if (helpedAgainst)
    sentences.push(
      `Yet it went the wrong way for ${causePhrase(helpedAgainst, parameter === 'index-offset')}: check its part, amount and sign. Softer riding may make shifting better too.`,
    );
  if (sharedPeriod) sentences.push(NOT_TOLD_APART);
  return sentences;
}

/** Whether the shifts show that something came of it. A chain or cassette is not replaced for their sake, so that they do not is no news. */
const changedShifts = (adjustment: AdjustmentReport): boolean => {
  const { before, after, probabilityBetter } = adjustment;
  return (
    (before.shifts > 0 && after.shifts > 0 && isDecided(probabilityBetter)) || whatAllHides(adjustment, 'it') !== null
  );
};

/** A few shifts that went well are no bike in order yet, and a chain that moves by itself is not. */
const nothingToMend = (before: AdjustmentReport['before'], after: AdjustmentReport['after']): boolean =>
  before.shifts >= FEWEST_SHIFTS &&
  after.shifts > 0 &&
  [before, after].every(({ late, missed, overshot, ghostShifts }) => late + missed + overshot + ghostShifts === 0);

/** The same by all judged shifts. */
function overallVerdict(adjustment: AdjustmentReport): string[] {
  const { before, after, probabilityBetter, sharedPeriod, followedBy } = adjustment;
  const it = sharedPeriod ? 'together they' : 'it';
  const hidden = whatAllHides(adjustment, it);
  if (hidden) return [hidden];
  if (nothingToMend(before, after))
    return [
      `There was nothing to mend that shifts could show: none of ${figure(before.shifts)} went wrong before, none of ${figure(after.shifts)} since.`,
    ];
  const more = moreToTell(adjustment, byAllShifts);
  if (before.shifts === 0) return ['Nothing was judged before it, so there is nothing to compare with.', ...more];
  if (after.shifts === 0)
    return [
      `Before it trouble was ${rateWithInterval(before)}; nothing was judged after it${followedBy ? '' : ' yet'}.`,
      ...more,
    ];
  const better = asDecided(
    probabilityBetter,
    `${upperFirst(it)} helped`,
    `${upperFirst(it)} made shifting worse`,
    `Not decided yet whether ${it} helped`,
  );
  const { facts } = byAllShifts(adjustment);
  const ways = byDirection(adjustment);
  const told = `${better}: ${facts}; ${howSurely(probabilityBetter)}.`;
  return [told, ...(ways === null ? [] : [ways]), ...more];
}

function byAllShifts({ before, after, shiftsStillNeeded }: Compared): Told {
  const facts = `trouble ${rateWithInterval(before)} in ${counted(before.shifts, 'shift')} before, ${rateWithInterval(after)} in ${counted(after.shifts, 'shift')} after`;
  if (shiftsStillNeeded !== null)
    return {
      facts,
      more:
        shiftsStillNeeded > 0
          ? [`About ${counted(shiftsStillNeeded, 'more judged shift')} will tell whether that helped.`]
          : [],
    };
  if (before.shifts === 0) return { facts, more: [] };
  const never =
    after.shifts > 0
      ? `Not even ${FURTHEST_SHIFTS} more judged shifts like those since would tell: rides differ as much by themselves.`
      : `Not even ${FURTHEST_SHIFTS} judged shifts that go well would tell: there was too little trouble before.`;
  return { facts, more: [never] };
}

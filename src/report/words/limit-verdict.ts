import { FURTHEST_SHIFTS } from '../../adjustments/compare-rates.ts';
import { wentWrong } from '../../adjustments/end-cog-count.ts';
import { type ComparedEnd, endCogBeforeAndAfter, endWords } from '../../adjustments/end-cog-words.ts';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { asDecided, howSurely } from './how-surely.ts';
import { moreToTell } from './more-to-tell.ts';

/** Whether a limit screw's adjustment helped, by the shifts onto its end cog: all others it leaves as they were. */
export function limitVerdict(endCog: ComparedEnd, adjustment: AdjustmentReport): string[] {
  const { amount, probabilityBetter, together } = adjustment;
  const { end, before, after } = endCog;
  const onto = `onto the ${endWords[end]} cog`;
  const facts = endCogBeforeAndAfter(endCog);
  // no rate is waited for: a limit that was opened and has let the chain past since went too far, if not the wrong way from the first
  if ((amount ?? 0) < 0 && after.lost > 0)
    return [before.lost === 0 ? `It went too far: ${facts}.` : `${upperFirst(facts)}.`];
  const more = moreToTell(adjustment, ({ endCog: compared, shiftsStillNeeded }) => ({
    facts: endCogBeforeAndAfter(compared ?? endCog),
    more: stillNeeded(compared ?? endCog, shiftsStillNeeded),
  }));
  if (before.shifts === 0)
    return [`No shift ${onto} was judged before it, so there is nothing to compare with.`, ...(together ? more : [])];
  if (after.shifts === 0) return [`${upperFirst(facts)}.`, ...more];
  if (before.shifts >= SAY_LITTLE && wentWrong(before) + wentWrong(after) === 0)
    return [
      `There was nothing to mend that shifts could show: none of ${figure(before.shifts)} ${onto} went wrong before, none of ${figure(after.shifts)} since.`,
    ];
  const better = asDecided(
    probabilityBetter,
    'It helped',
    'It made shifting worse',
    'Not decided yet whether it helped',
  );
  return [`${better}: ${facts}; ${howSurely(probabilityBetter)}.`, ...more];
}

/** Nobody is sent onto a cog past which the chain was lost before a stand has shown that it stays on, nor to see whether it is lost again. */
function stillNeeded({ end, before, after }: ComparedEnd, needed: number | null): string[] {
  const onto = `onto the ${endWords[end]} cog`;
  if (needed === 0 || after.lost > 0) return [];
  if (needed === null) return [`Not even ${FURTHEST_SHIFTS} more judged shifts ${onto} would tell.`];
  const stand = before.lost > 0 ? ', once the chain has stayed on there on a stand,' : '';
  return [`About ${counted(needed, 'more judged shift')} ${onto}${stand} will tell whether that helped.`];
}

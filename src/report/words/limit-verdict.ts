import { DECIDED_AT, FURTHEST_SHIFTS } from '../../adjustments/compare-rates.ts';
import { type ComparedEnd, endCogBeforeAndAfter, endWords } from '../../adjustments/end-cog-words.ts';
import { counted } from '../../numeric/counted.ts';
import { chance } from '../../numeric/percent.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';

/** Whether a limit screw's adjustment helped, by the shifts onto its end cog: all others it leaves as they were. */
export function limitVerdict(
  endCog: ComparedEnd,
  {
    amount,
    probabilityBetter,
    shiftsStillNeeded,
  }: Pick<AdjustmentReport, 'amount' | 'probabilityBetter' | 'shiftsStillNeeded'>,
): string[] {
  const { end, before, after } = endCog;
  const onto = `onto the ${endWords[end]} cog`;
  // no rate is waited for: a limit that was opened and has let the chain past since went too far
  if ((amount ?? 0) < 0 && before.lost === 0 && after.lost > 0)
    return [`It went too far: ${endCogBeforeAndAfter(endCog)}.`];
  if (before.shifts === 0) return [`No shift ${onto} was judged before it, so there is nothing to compare with.`];
  const more = stillNeeded(endCog, shiftsStillNeeded);
  const facts = endCogBeforeAndAfter(endCog);
  if (after.shifts === 0) return [`${upperFirst(facts)}.`, ...more];
  const better =
    probabilityBetter >= DECIDED_AT
      ? 'It helped'
      : probabilityBetter <= 1 - DECIDED_AT
        ? 'It made shifting worse'
        : 'Not decided yet whether it helped';
  return [`${better}: ${facts}; better with a probability of ${chance(probabilityBetter)}.`, ...more];
}

/** Nobody is sent onto a cog past which the chain was lost before a stand has shown that it stays on. */
function stillNeeded({ end, before, after }: ComparedEnd, needed: number | null): string[] {
  const onto = `onto the ${endWords[end]} cog`;
  if (needed === 0) return [];
  if (needed === null) return [`Not even ${FURTHEST_SHIFTS} more judged shifts ${onto} would tell.`];
  const stand = before.lost > 0 && after.lost === 0 ? ', once the chain has stayed on there on a stand,' : '';
  return [`About ${counted(needed, 'more judged shift')} ${onto}${stand} will tell.`];
}

import { turnsAnything } from '../adjustments/doubtful-adjustment.ts';
import { cassetteEnds } from '../adjustments/end-cog-count.ts';
import { isTogether } from '../adjustments/made-together.ts';
import type { Diagnosis, DiagnosisInput } from './diagnosis.ts';
import { historyFrom, historyUntil } from './history.ts';
import type { SuggestionFacts } from './next-step/suggestion-facts.ts';
import type { BikeNow } from './now/bike-now.ts';
import { anyShiftsFail, ghostsOften } from './now/fails-like.ts';
import { shiftsWell } from './now/shifts-well.ts';
import { observe } from './observed.ts';
import { EXPLAINED_FROM, LIKELY_ENOUGH } from './verdict-limits.ts';
import { wentTwoWays } from './went-two-ways.ts';
import { WENT_WELL_BELOW } from './went-well.ts';

/** Whether the rides since the last adjustment show trouble of their own, whichever fault makes it. */
const showsTrouble = ({ since: { seen, lost }, skipping }: Pick<BikeNow, 'since' | 'skipping'>): boolean =>
  anyShiftsFail(seen) || ghostsOften(seen) || skipping !== null || cassetteEnds.some((end) => lost(end) > 0);

/**
 * The rides to be weighed by themselves, in the order in which they are to be asked: those since the last adjustment; and with them those of the period before it, where the
 * bike was in order then. A fault that was cured for a while does not come back by work on another part: what goes wrong since is held against what was turned.
 */
export function ridesToLookAtAlone(
  input: DiagnosisInput,
  facts: Pick<SuggestionFacts, 'ranked' | 'now' | 'wellSince' | 'comparisons'>,
): DiagnosisInput[] {
  const newer = ridesSinceLast(input, facts);
  if (!newer) return [];
  const { standing, from } = periodBefore(facts);
  const inOrder =
    from !== null &&
    shiftsWell(observe(historyUntil(historyFrom(input, from), standing).rides, input.bike), WENT_WELL_BELOW);
  return inOrder ? [newer, historyFrom(input, from)] : [newer];
}

/** When the last sitting was, and the one before it (Unix milliseconds); null without an earlier one. */
function periodBefore({ now, comparisons }: Pick<SuggestionFacts, 'now' | 'comparisons'>) {
  const last = comparisons.findLast(({ at }) => at === now.since.last?.at);
  const group = comparisons.filter((one) => last && isTogether(one, last));
  const earlier = comparisons.filter((one) => last && one.group < last.group).at(-1);
  const first = group.at(0);
  return { standing: first ? Date.parse(first.at) : Number.NaN, from: earlier ? Date.parse(earlier.at) : null };
}

/**
 * The rides since the last adjustment, to be weighed by themselves: where the fault that all rides name is likelier gone than not, or that adjustment made
 * one part of the shifts better and another worse, and things go wrong all the same. All rides are weighed for one fault; one that came after it is hidden
 * behind it, or both are taken for a third. Null where there is nothing of the kind.
 */
function ridesSinceLast(
  input: DiagnosisInput,
  facts: Pick<SuggestionFacts, 'ranked' | 'now' | 'wellSince' | 'comparisons'>,
): DiagnosisInput | null {
  const { ranked, now, wellSince } = facts;
  const { setting, since, stillThere } = now;
  // a cured fault hides one that shifts do not show: skips
  const mayHide = setting === 'same' || setting === 'unsettled' || setting === 'cured';
  if (!since.last || !mayHide || wellSince || ranked[0].cause === 'no-fault') return null;
  if ((stillThere >= LIKELY_ENOUGH && !wentTwoWays(facts, since.last.at)) || !showsTrouble(now)) return null;
  const newer = historyFrom(input, Date.parse(since.last.at));
  return { ...newer, adjustments: newer.adjustments.filter((one) => !turnsAnything(one)) };
}

/** Whether the rides since name another fault by themselves, and hardly leave room for the one before. */
export function isAnotherFault(
  before: Pick<SuggestionFacts, 'ranked'>,
  {
    facts: { ranked, undecided },
    suggestion,
  }: Readonly<{ facts: SuggestionFacts; suggestion: Diagnosis['suggestion'] }>,
): boolean {
  const first = ranked.find(({ cause }) => cause === before.ranked[0].cause);
  const named = [ranked[0].cause, ...(undecided?.between ?? [])];
  return suggestion.namesCause && !named.includes('no-fault') && (first?.probability ?? 0) < EXPLAINED_FROM;
}

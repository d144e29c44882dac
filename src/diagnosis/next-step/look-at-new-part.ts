import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import { isTogether } from '../../adjustments/made-together.ts';
import { parameterName } from '../../adjustments/parameter-words.ts';
import { listed } from '../../numeric/listed.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import { beganSuddenly } from '../posterior/onset.ts';
import type { Work } from './in-order.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

const SITS = 'the wheel sits fully in the dropouts and its axle is tight';
/** What a part may be left in that was just aligned or replaced. Common practice in the trade, no source. */
const looks: Readonly<Partial<Record<Adjustment['parameter'], string>>> = {
  hanger: 'whether hanger and derailleur sit tight and straight',
  'cable-and-housing': 'whether the cable slips in its clamp and the ends of the housing are seated',
  chain: 'whether the chain runs rightly through the cage, is long enough and has no stiff link',
  cassette: `whether its lockring is tight, no spacer is missing, doubled or in the wrong place, ${SITS}`,
  wheel: `whether ${SITS}, and the lockring and spacers of its cassette are in order`,
};
/** Another wheel or cassette seldom stands just where the old one did. */
const movesTheCogs: readonly string[] = ['cassette', 'wheel', 'hanger'];

/** Where trouble began with a part that was aligned or replaced, that work is looked over before anything is turned; empty where none did. */
export function lookAtNewPart(facts: SuggestionFacts): Work[] {
  const all = partsToLookAt(facts);
  const parts = notFoundRight(all, facts);
  if (parts.length === 0) return [];
  const names = parts.map(({ parameter }) => parameter);
  const look = names.flatMap((name) => looks[name] ?? []).join('; ');
  const anew = all.some(({ parameter: name }) => movesTheCogs.includes(name))
    ? ' Then see on a stand whether indexing and both limits still fit: the cogs may stand elsewhere than before.'
    : '';
  return [
    {
      step: `Look at what was done on ${utcDay(parts[0].at)} (${listed(names.map(parameterName))}), since ${cameWith(facts, parts[0]) ? 'the trouble came with it' : 'shifting was worse after it'}: ${look}.${anew}`,
      start: 'Look over that work before anything is turned.',
    },
  ];
}

/** Whether the work on a part is looked over so. */
export const isNewPart = (parameter: Adjustment['parameter'], facts: SuggestionFacts): boolean =>
  notFoundRight(partsToLookAt(facts), facts).some((part) => part.parameter === parameter);

const notFoundRight = (parts: readonly AdjustmentComparison[], facts: SuggestionFacts): AdjustmentComparison[] =>
  parts.filter((part) => !foundRightSince(part, facts));

/** Whether that work was looked over already, and nothing found. */
const foundRightSince = ({ parameter, at }: AdjustmentComparison, { foundRight }: SuggestionFacts): boolean =>
  foundRight.some((look) => look.parameter === parameter && Date.parse(look.at) >= Date.parse(at));

/** Whether the fault began suddenly between the ride before an entry and the next; what was there before it did not come with it. */
function cameWith({ onset }: Pick<SuggestionFacts, 'onset'>, { at }: Pick<AdjustmentComparison, 'at'>): boolean {
  if (onset.rideBeforeAt === null || !beganSuddenly(onset)) return false;
  const atMs = Date.parse(at);
  return atMs > Date.parse(onset.rideBeforeAt) && atMs <= Date.parse(onset.at ?? '');
}

/** The parts that were last aligned or replaced together, where trouble came with them; none where it was seen to since. */
function partsToLookAt({
  comparisons,
  ranked,
  undecided,
  wellSince,
  now,
  onset,
}: SuggestionFacts): AdjustmentComparison[] {
  if (wellSince || now.setting === 'cured' || (ranked[0].cause === 'no-fault' && !undecided)) return [];
  const until = Date.parse(onset.at ?? '');
  // rides that went well lie between an entry and a fault that began suddenly later
  const wentWellFirst = (atMs: number): boolean => beganSuddenly(onset) && atMs < until;
  const madeWorse = ({ probabilityBetter, oppositeWays, before, after }: AdjustmentComparison): boolean =>
    before.shifts > 0 && after.shifts > 0 && (probabilityBetter <= 1 - DECIDED_AT || oppositeWays !== null);
  const isReason = (one: AdjustmentComparison): boolean =>
    cameWith({ onset }, one) || (madeWorse(one) && !wentWellFirst(Date.parse(one.at)));
  const last = comparisons.findLast((one) => one.amount === null && isReason(one));
  if (!last) return [];
  const since = comparisons.slice(comparisons.indexOf(last) + 1).filter((one) => !isTogether(one, last));
  if (since.some(({ amount, probabilityBetter }) => amount === null || probabilityBetter >= DECIDED_AT)) return [];
  return comparisons.filter((one) => one.amount === null && isTogether(one, last));
}

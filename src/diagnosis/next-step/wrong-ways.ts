import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import type { StandingHarm } from '../../adjustments/standing-harm.ts';
import type { Cause } from '../causes.ts';
import { canBring } from '../likelihood/onset-options.ts';
import { shiftsWell } from '../now/shifts-well.ts';
import { isTurnable, signOfCure, type TurnableFault, turnedTowards } from '../now/turned-towards.ts';
import { beganSuddenly } from '../posterior/onset.ts';
import { opensAt } from './look-then-open.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

/** What is left of a turn that went towards a fault which is there, and the fault. */
interface WrongWay extends StandingHarm {
  readonly fault: TurnableFault;
}

/**
 * Entries that, all in all, turned a fault in question further the way in which it is out, while it is there as it was found, as far as nothing
 * logged since took them back. None of what came before the fault began, or before a part was replaced that sets the same anew, and none that
 * helped for sure; nor where taking it back would open a limit past which a chain was lost.
 */
export const wrongWays = (facts: SuggestionFacts): WrongWay[] =>
  facts.now.setting === 'same'
    ? inQuestion(facts).flatMap((fault) => (opensAt(fault, facts) ? [] : wrongWayFor(fault, facts)))
    : [];

/** An entry that went towards a fault which is there, and yet it got better for sure: its sign may be wrong, and with it how far it is to go. */
type HelpedAgainst = Pick<WrongWay, 'at' | 'parameter' | 'fault'>;

/**
 * Entries that helped although they went towards a fault in question that is there as it was found, by what was ridden: work without a ride since
 * clears up nothing. What took a wrong turn back is none.
 */
export const helpedAgainst = (facts: SuggestionFacts): HelpedAgainst[] =>
  facts.now.setting === 'same' || facts.now.setting === 'untested'
    ? inQuestion(facts).flatMap((fault) =>
        sinceItWasThere(fault, facts)
          .filter((one) => isTowards(fault, one.parameter, one.amount) && helpedByItself(one))
          .map(({ at, parameter }) => ({ at, parameter, fault })),
      )
    : [];

/** Whether an entry by itself, whatever was turned the same way before it, made it better for sure. */
const helpedByItself = ({ probabilityBetter, oppositeWays, cameBack }: AdjustmentComparison): boolean =>
  probabilityBetter >= DECIDED_AT && !oppositeWays && !cameBack;

/** The faults in question that something is turned for. */
function inQuestion({ wellSince, ranked, undecided, seen }: SuggestionFacts): TurnableFault[] {
  if (wellSince || ranked[0].cause === 'no-fault' || shiftsWell(seen)) return [];
  const open: readonly Cause[] = undecided?.between ?? [ranked[0].cause];
  return open.filter(isTurnable);
}

function wrongWayFor(fault: TurnableFault, facts: SuggestionFacts): WrongWay[] {
  // what helped for sure was no wrong way; but what took a wrong one back did help, and counts against it
  const made = sinceItWasThere(fault, facts).filter(
    ({ parameter, amount, probabilityBetter }) =>
      probabilityBetter < DECIDED_AT || !isTowards(fault, parameter, amount),
  );
  const turned = turnedTowards(fault, made);
  const last = made.findLast(({ parameter, amount }) => isTowards(fault, parameter, amount));
  if (!turned || !last) return [];
  const { at, parameter, unit } = last;
  return [{ at, parameter, unit, back: (signOfCure(fault) ?? 1) * turned.amount, fault }];
}

const isTowards = (fault: TurnableFault, parameter: AdjustmentComparison['parameter'], amount: number | null) =>
  turnedTowards(fault, [{ at: '', parameter, amount }]) !== null;

/** What was logged since the fault was seen, and since a part was replaced that can have brought it or put it right. */
function sinceItWasThere(fault: TurnableFault, { comparisons, onset }: SuggestionFacts): AdjustmentComparison[] {
  // what was logged between the last ride in order and the first with it may have brought it
  const from = beganSuddenly(onset) ? (onset.rideBeforeAt ?? onset.at) : null;
  const fromMs = from ? Date.parse(from) : Number.NEGATIVE_INFINITY;
  const anew = comparisons.findLastIndex(({ parameter, amount }) => amount === null && canBring(fault, parameter));
  return comparisons.slice(anew + 1).filter(({ at, before }) => before.shifts > 0 && Date.parse(at) >= fromMs);
}

import type { Cause } from '../causes.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import type { SuggestionFacts } from '../next-step/suggestion-facts.ts';
import { shiftsWell } from '../now/shifts-well.ts';
import { ALL_BUT_SURE, LIKELY_ENOUGH } from '../verdict-limits.ts';

/** Causes that can carry the chain into spokes or frame, or the derailleur into the spokes. */
const dangers: readonly Cause[] = ['low-limit-loose', 'high-limit-loose', 'hanger-bent'];

/** What a check ride hangs on. */
export type RideFacts = Pick<SuggestionFacts, 'ranked' | 'undecided' | 'now' | 'seen' | 'wellSince'>;

/** Whether a danger is named, or a chain was lost past an end and nothing shows yet that it stays on: then that is looked at, and not ridden on. */
export const dangerNamed = ({ ranked, undecided, now }: Pick<RideFacts, 'ranked' | 'undecided' | 'now'>): boolean =>
  now.keepOff.size > 0 || (undecided?.between ?? [ranked[0].cause]).some((cause) => dangers.includes(cause));

/** Whether the verdict is as good as sure, so that nothing is left to tell apart. */
export const isDecided = ({ ranked, undecided }: Pick<RideFacts, 'ranked' | 'undecided'>): boolean =>
  !undecided && ranked[0].probability >= ALL_BUT_SURE;

/** Whether the next step leaves everything as it is. */
function leavesAlone({ ranked, undecided, seen }: RideFacts): boolean {
  if (seen.all.shifts < FEWEST_SHIFTS) return false;
  const [{ cause, probability }] = ranked;
  if (cause === 'no-fault') return !undecided && probability >= LIKELY_ENOUGH;
  return shiftsWell(seen) && !undecided?.between.includes('no-fault');
}

/**
 * Whether a ride made to tell causes apart is of any use: only where it is open which cause it is, none of them is a danger, and something is
 * to be tried. What was adjusted last has rides of its own that prove it.
 */
export const rideWanted = (facts: RideFacts): boolean =>
  facts.now.setting === 'same' && !facts.wellSince && !dangerNamed(facts) && !isDecided(facts) && !leavesAlone(facts);

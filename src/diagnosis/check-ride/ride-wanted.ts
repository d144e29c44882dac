import type { Cause } from '../causes.ts';
import { type StepChoice, type VerdictFacts, whichStep } from '../next-step/which-step.ts';
import { ALL_BUT_SURE } from '../verdict-limits.ts';

/** Causes that can carry the chain into spokes or frame, or the derailleur into the spokes. */
const dangers: readonly Cause[] = ['low-limit-loose', 'high-limit-loose', 'hanger-bent'];

/** Whether a danger is named, or a chain was lost past an end and nothing shows yet that it stays on: then that is looked at, and not ridden on. */
export const dangerNamed = ({ ranked, undecided, now }: Pick<VerdictFacts, 'ranked' | 'undecided' | 'now'>): boolean =>
  now.keepOff.size > 0 || (undecided?.between ?? [ranked[0].cause]).some((cause) => dangers.includes(cause));

/** Whether the verdict is as good as sure, so that nothing is left to tell apart. */
export const isDecided = ({ ranked, undecided }: Pick<VerdictFacts, 'ranked' | 'undecided'>): boolean =>
  !undecided && ranked[0].probability >= ALL_BUT_SURE;

/** Steps after which it is still open which cause it is, and something is to be tried, or may be. */
const leavesOpen: readonly StepChoice['kind'][] = [
  'few-shifts',
  'nothing-shows',
  'whether-a-fault',
  'which-fault',
  'for-either',
  'for-cause',
];

/** Whether the next step still leaves it open which cause it is. Easing off does so only where a fault is in question beside it. */
function stillOpen(facts: VerdictFacts): boolean {
  const { kind } = whichStep(facts);
  return leavesOpen.includes(kind) || (kind === 'ease-off' && facts.undecided !== null);
}

/**
 * Whether a ride made to tell causes apart is of any use: only where it is open which cause it is, none of them is a danger, and something is
 * to be tried. What was adjusted last has rides of its own that prove it.
 */
export const rideWanted = (facts: VerdictFacts): boolean =>
  facts.now.setting === 'same' && !facts.wellSince && !dangerNamed(facts) && !isDecided(facts) && stillOpen(facts);

import { lastHelpedForSure } from '../../adjustments/helped-for-sure.ts';
import { type Cause, isIndexing } from '../causes.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import { shiftsWell } from '../now/shifts-well.ts';
import { RIDER_LIKELY } from '../posterior/rider-load.ts';
import { ALL_BUT_SURE, LIKELY_ENOUGH } from '../verdict-limits.ts';
import { hangsWhetherFault, noneIsLikely, standsAlone } from '../what-leads.ts';
import { lookLeadsOn } from './after-look.ts';
import { hardlyAnythingShows } from './nothing-shows.ts';
import type { Fault, SuggestionFacts } from './suggestion-facts.ts';

/** What the kind of the next step hangs on. */
export type VerdictFacts = Pick<
  SuggestionFacts,
  | 'comparisons'
  | 'ranked'
  | 'failsPlainly'
  | 'undecided'
  | 'seen'
  | 'now'
  | 'rider'
  | 'unexplained'
  | 'wellSince'
  | 'foundRight'
>;
type Given<Fact extends keyof VerdictFacts> = NonNullable<VerdictFacts[Fact]>;

/** What the next step is about, before it is put into words. */
export type StepChoice =
  /** A setting was turned too far. */
  | { readonly kind: 'turn-back'; readonly tooFar: NonNullable<VerdictFacts['now']['tooFar']> }
  /** Too few shifts to name a part. */
  | { readonly kind: 'few-shifts' }
  /** What was done last has rides of its own to prove it. */
  | { readonly kind: 'after-adjusting'; readonly cause: Fault }
  /** Hard pedalling is at fault, no part. */
  | { readonly kind: 'ease-off' }
  /** No cause explains what goes wrong. */
  | { readonly kind: 'look-there'; readonly unexplained: Given<'unexplained'> }
  /** The newest rides shift well. */
  | { readonly kind: 'put-right'; readonly wellSince: Given<'wellSince'> }
  /** Nothing went wrong at all, or hardly anything and no fault is near, though too little was ridden to be sure. */
  | { readonly kind: 'nothing-shows' }
  /** It is open whether there is a fault, or which. */
  | { readonly kind: 'whether-a-fault' }
  | { readonly kind: 'which-fault'; readonly cause: Fault }
  /** Nothing is wrong, or a fault that hardly shows. */
  | { readonly kind: 'in-order' }
  | { readonly kind: 'leave-alone' }
  /** What would be wrong by the fault was looked at and found right. */
  | { readonly kind: 'after-look'; readonly cause: Fault }
  /** One of two faults, or one. */
  | { readonly kind: 'for-either'; readonly between: readonly [Fault, Fault] }
  | { readonly kind: 'for-cause'; readonly cause: Fault };

/** The kind of step that comes next: the first that applies, in the order the trade works in. */
export function whichStep(facts: VerdictFacts): StepChoice {
  const { ranked, undecided, seen, now, rider, unexplained, wellSince, comparisons } = facts;
  const [{ cause, probability }] = ranked;
  if (now.tooFar && cause === 'cable-friction' && cableComesFirst(facts)) return { kind: 'for-cause', cause };
  if (now.tooFar) return { kind: 'turn-back', tooFar: now.tooFar };
  if (seen.all.shifts < FEWEST_SHIFTS && (cause === 'no-fault' || probability < ALL_BUT_SURE))
    return { kind: 'few-shifts' };
  // what was done about a limit past which the chain was lost is told before anything that all shifts together leave open
  if (now.trial && now.trial.before.lost > 0 && cause !== 'no-fault' && now.setting !== 'same')
    return { kind: 'after-adjusting', cause };
  const mayBeInOrder = hangsWhetherFault(undecided);
  if (rider.goneWithSoftLegs && (cause === 'no-fault' || mayBeInOrder) && !wellSince) return { kind: 'ease-off' };
  if (cause === 'no-fault' && unexplained) return { kind: 'look-there', unexplained };
  const open = cause === 'no-fault' && !noneIsLikely(ranked);
  if (wellSince && (cause !== 'no-fault' || open || undecided)) return { kind: 'put-right', wellSince };
  if (open && !undecided && hardlyAnythingShows(facts)) return { kind: 'nothing-shows' };
  if (cause !== 'no-fault' && now.setting === 'cured' && lastHelpedForSure(comparisons))
    return { kind: 'after-adjusting', cause };
  if (open || mayBeInOrder) return { kind: 'whether-a-fault' };
  if (cause === 'no-fault') return { kind: rider.probability > RIDER_LIKELY ? 'ease-off' : 'in-order' };
  return now.setting === 'same' ? forFault(cause, facts) : { kind: 'after-adjusting', cause };
}

/** Whether indexing was turned too far against friction that is as good as sure and still there: back it would only be as wrong as before, so the cable comes first. */
const cableComesFirst = ({ ranked: [{ probability }], undecided, now }: VerdictFacts): boolean =>
  now.tooFar !== null &&
  isIndexing(now.tooFar.fault) &&
  probability >= ALL_BUT_SURE &&
  !undecided &&
  now.stillThere >= LIKELY_ENOUGH;

/** The same for a fault that is there, as it was named. */
function forFault(cause: Fault, facts: VerdictFacts): StepChoice {
  const { ranked, undecided, seen, unexplained, failsPlainly } = facts;
  // that it is a fault rests on the one cog, and that does not say which
  const onCogAlone = failsPlainly !== null && failsPlainly.cog !== null;
  if (onCogAlone && !standsAlone(ranked, undecided)) return { kind: 'which-fault', cause };
  if (shiftsWell(seen)) return unexplained ? { kind: 'look-there', unexplained } : { kind: 'leave-alone' };
  if (lookLeadsOn(cause, facts)) return { kind: 'after-look', cause };
  const between = undecided && bothFaults(undecided.between);
  if (between && togetherLikely(between, ranked)) return { kind: 'for-either', between };
  return { kind: ranked[0].probability < LIKELY_ENOUGH ? 'which-fault' : 'for-cause', cause };
}

/** The two causes where both are faults, else null. */
const bothFaults = ([one, other]: readonly [Cause, Cause]): readonly [Fault, Fault] | null =>
  one === 'no-fault' || other === 'no-fault' ? null : [one, other];

/** Whether one of some causes is likelier than all others: else nothing is mended on a guess between them. */
const togetherLikely = (some: readonly Cause[], ranked: VerdictFacts['ranked']): boolean =>
  ranked.reduce((sum, { cause, probability }) => (some.includes(cause) ? sum + probability : sum), 0) >= LIKELY_ENOUGH;

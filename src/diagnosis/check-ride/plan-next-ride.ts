import type { Diagnosis, DiagnosisInput } from '../diagnosis.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import type { SuggestionFacts } from '../next-step/suggestion-facts.ts';
import type { VerdictFacts } from '../next-step/which-step.ts';
import { sawNothing } from '../observed.ts';
import type { LookAhead } from '../posterior/look-ahead.ts';
import type { Particle } from '../posterior/particles.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';
import { endsAtRisk } from './ends-at-risk.ts';
import { type KeptFrom, noCheckRide, planCheckRide, shiftsPlanned, withSkipStretch } from './plan-check-ride.ts';
import { dangerNamed, isDecided, rideWanted } from './ride-wanted.ts';
import { type Rivals, rivalsOf } from './rivals.ts';
import { safeShifts } from './safe-shifts.ts';
import { separateCauses } from './separate-causes.ts';
import { skipStretch } from './skip-stretch.ts';
import { standFirst } from './stand-first.ts';
import { namedByPlan, TELLS } from './tells-apart.ts';

/**
 * A plan that is expected to tell this much about all causes together is worth riding, even where it hardly parts the two likeliest: most often
 * it shows or rules out what the ride could not show so far, such as limits at end cogs that were hardly used. An assumption of ours.
 */
const WORTH_BITS = 0.5;

/** What the next ride may tell hangs on. */
interface NextRideFacts extends VerdictFacts, Pick<SuggestionFacts, 'seenTo'> {
  readonly weighed: WeighedCauses;
  readonly particles: readonly Particle[];
  readonly lookAhead: LookAhead;
}

/** What the next ride may tell: by what the two likeliest causes part, and the check ride for it, as far as it can tell them. */
export function planNextRide(input: DiagnosisInput, facts: NextRideFacts): Pick<Diagnosis, 'separates' | 'checkRide'> {
  const { particles, weighed, ranked, undecided, now, seen, wellSince } = facts;
  // where no cause explains what goes wrong, a ride that would tell two of them apart tells nothing
  if (ranked[0].cause === 'no-fault' && facts.unexplained) return { separates: null, checkRide: noCheckRide };
  const { cassette, actuation } = input.bike;
  const unseen = new Set(input.unseenCogs);
  const named = now.setting === 'cured' ? [] : (undecided?.between ?? [ranked[0].cause]);
  const kept: KeptFrom = { unseen, atRisk: endsAtRisk(particles, now.keepOff, named) };
  const [{ cause: first }, { cause: second }] = ranked;
  const rivals = rivalsOf(weighed, undecided?.between ?? [first, second]);
  // a fault that was cured or turned into another shows nothing any more by which it could be told apart
  const gone = now.setting === 'cured' || now.setting === 'overdone' || wellSince;
  const { plan, tells } = planShifts(input, facts, rivals, kept);
  const on = {
    ...kept,
    cassette,
    electronic: actuation === 'electronic',
    byHandOnly: dangerNamed(facts),
    judgesShifts: input.rides.length === 0 || input.rides.some(({ evidence }) => evidence !== 'ratio-only'),
    planned: tells ? shiftsPlanned(plan, cassette) : [],
    seenTo: facts.seenTo,
  };
  const separates = sawNothing(seen) || gone || isDecided(facts) ? null : separateCauses(rivals, on);
  const mostUsed = seen.pedallingShare.indexOf(Math.max(...seen.pedallingShare));
  const canPress = !unseen.has(mostUsed) && safeShifts(cassette.length, kept.atRisk)(mostUsed, false);
  const addsSkips = canPlan(input) && rideWanted(facts) && separates?.bySkips && canPress;
  const ridden = addsSkips ? withSkipStretch(plan, cassette[mostUsed], skipStretch(rivals).words) : plan;
  return { separates, checkRide: standFirst(ridden, cassette) };
}

/** Nothing can be planned where no cog is known, or no ride is the bike's own. */
const canPlan = ({ cogsKnown, rides, ridesLeftOut }: DiagnosisInput): boolean =>
  cogsKnown !== false && !(rides.length === 0 && ridesLeftOut);

/** The plan of shifts, none where no ride is wanted or worth it, and whether they tell the two likeliest causes apart. */
function planShifts(
  input: DiagnosisInput,
  facts: NextRideFacts,
  rivals: Rivals,
  kept: KeptFrom,
): { readonly plan: Diagnosis['checkRide']; readonly tells: boolean } {
  if (!canPlan(input) || !rideWanted(facts)) return { plan: noCheckRide, tells: false };
  const { cassette } = input.bike;
  const { lookAhead, weighed, seen } = facts;
  const plan = planCheckRide(lookAhead, cassette, weighed.model.usage, kept);
  const tells = plan.blocks.length > 0 && namedByPlan(rivals, shiftsPlanned(plan, cassette)) >= TELLS;
  // where hardly a shift was seen, which two are likeliest is chance, and any that are ridden on purpose tell more than none
  const worthRiding = tells || plan.expectedBits >= WORTH_BITS || seen.all.shifts < FEWEST_SHIFTS;
  return { plan: worthRiding ? plan : noCheckRide, tells };
}

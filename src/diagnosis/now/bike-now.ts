import type { Adjustment } from '../../adjustments/adjustment.ts';
import { type CassetteEnd, cassetteEnds } from '../../adjustments/end-cog-count.ts';
import type { Cause } from '../causes.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import { faultLeft } from './fault-left.ts';
import { isUnproven, type LimitTrial } from './limit-trial.ts';
import type { NowFacts } from './now-facts.ts';
import { riddenOn } from './ridden-on.ts';
import { type SeenSince, seenSince } from './seen-since.ts';
import type { SettingNow } from './setting-now.ts';
import { settingSince } from './setting-since.ts';
import { sinceFirstRide } from './since-first-ride.ts';
import { type SkippingNow, skippingNow } from './skipping-now.ts';
import { type StandsWhereLost, standsWhereLost } from './stands-where-lost.ts';
import { shareStandingOut } from './still-there.ts';
import { type LimitTrials, trialOfCause, trialsNow } from './trials-now.ts';
import { type TurnedTooFar, turnedTooFar } from './turned-too-far.ts';
import { oppositeOf, turnedTowards } from './turned-towards.ts';

/** What is wrong with a bike now. Whatever is advised or said of it follows from this. */
export interface BikeNow {
  /** The cause as first named: what was mis-set. */
  readonly cause: Cause;
  /** What is wrong now: the cause, the fault that an adjustment made of it, or `no-fault` once it is cured. */
  readonly fault: Cause;
  readonly setting: SettingNow;
  /** Set where `overdone`: how far the setting was turned, and whether the last adjustment did it. */
  readonly tooFar: (TurnedTooFar & { readonly byLast: boolean }) | null;
  /** Probability that the cause is still there as it was named; 1, saying nothing, where nothing was adjusted or judged since. */
  readonly stillThere: number;
  /** Probability that its setting stands out on the other side; where `overdone`, on the side of `fault`. */
  readonly pastTheMark: number;
  readonly since: SeenSince;
  /** Null where the chain does not skip, or no more than the sensors slip. */
  readonly skipping: SkippingNow | null;
  /** Ends past which a chain was lost while nothing since shows that it stays on: nobody is sent onto the cog there. */
  readonly keepOff: ReadonlySet<CassetteEnd>;
  /** How each end cog fared before and since its limit was last seen to. */
  readonly trials: LimitTrials;
  /** The one by which the cause is judged: a limit screw's, where that limit was touched since the first ride. Else null. */
  readonly trial: LimitTrial | null;
  /** Limits that were turned back to where they let the chain past: none of an end that is not to be kept off. */
  readonly whereLost: readonly StandsWhereLost[];
  /** How far it was turned that way, all in all: clicks, steps or turns; 0 where it was not. */
  readonly turnedSoFar: number;
}

/** Says what is wrong now, from the imagined bikes as they are set after the last adjustment and from what was seen since. */
export function bikeNow(facts: NowFacts): BikeNow {
  const { bike, rides, evidence, particles, cause, probability, judgedShifts, wellSince } = facts;
  const adjustments = riddenOn(facts.adjustments, rides, cause);
  const since = seenSince(rides, adjustments, bike);
  const tested = evidence.groups.length > 0 && since.seen.all.shifts > 0;
  const shiftsTell = tested && judgedShifts >= FEWEST_SHIFTS && !wellSince;
  const turned = sinceFirstRide(adjustments, rides);
  const found = turnedTooFar({ cause, probability, particles, rides, turned, since, shiftsTell });
  const trials = trialsNow(facts);
  const keepOff = new Set(cassetteEnds.filter((end) => isUnproven(trials[end])));
  const whereLost = [...keepOff].flatMap((end) => standsWhereLost(end, rides, facts.adjustments) ?? []);
  const trial = trialOfCause(cause, trials, turned);
  const turnedSoFar = turnedAgainst(cause, turned);
  const turnedRight = turnedSoFar > 0;
  const left = tested ? faultLeft(facts, trial, turnedRight) : 1;
  const lastAt = adjustments.at(-1)?.at;
  const lastGroup =
    evidence.groups.findLast(({ adjustments: made }) => made.some(({ at }) => at === lastAt))?.adjustments ?? [];
  const tooFar = found && { ...found, byLast: found.lastTowards && lastGroup.some(({ at }) => at === found.lastAt) };
  const opposite = oppositeOf(cause);
  const own = particles.filter((particle) => particle.cause === cause);
  const past = tested && opposite ? shareStandingOut(own, opposite) : 0;
  const lost = cassetteEnds.some((end) => since.lost(end) > 0);
  const then = { since, tested, lost, left, past, trial, turnedRight };
  const setting = tooFar ? 'overdone' : settingSince(facts, then);
  return {
    cause,
    fault: tooFar ? tooFar.fault : setting === 'cured' ? 'no-fault' : cause,
    setting,
    tooFar,
    stillThere: left,
    pastTheMark: tooFar ? shareStandingOut(particles, tooFar.fault) : past,
    since,
    skipping: skippingNow(rides, since, bike),
    keepOff,
    ...{ trials, trial, whereLost, turnedSoFar },
  };
}

function turnedAgainst(cause: Cause, turned: readonly Adjustment[]): number {
  const opposite = oppositeOf(cause);
  return (opposite && turnedTowards(opposite, turned)?.amount) ?? 0;
}

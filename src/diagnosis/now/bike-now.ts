import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { helpedForSure } from '../../adjustments/helped-for-sure.ts';
import { inOrderOfTime } from '../../adjustments/in-order-of-time.ts';
import type { Bike } from '../../drivetrain/bike.ts';
import { wilsonInterval } from '../../numeric/wilson-interval.ts';
import { hasClock } from '../../ride-log/has-clock.ts';
import { cassetteEnds, endOfLimit, isLoose, limitAt } from '../cassette-ends.ts';
import { causePlace, shiftsAt } from '../cause-place.ts';
import type { Cause } from '../causes.ts';
import { CURED_BELOW } from '../cured-below.ts';
import type { DiagnosisRide, ShiftsWellSince, TurnEstimate } from '../diagnosis.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { FEWEST_SHIFTS } from '../fewest-shifts.ts';
import { canBring } from '../likelihood/onset-options.ts';
import { observe } from '../observed.ts';
import { goneUnlogged } from '../posterior/gone-unlogged.ts';
import type { Particle } from '../posterior/particles.ts';
import { awaitedProof } from './awaited-proof.ts';
import { anyShiftsFail, failsLike, ghostsOften } from './fails-like.ts';
import { goesAgainst } from './goes-against.ts';
import { betterSince } from './got-better.ts';
import { isTried, isUnproven, type LimitTrial, limitTrial } from './limit-trial.ts';
import { isIndexing, pointsTheSameWay } from './points-the-same-way.ts';
import { riddenOn } from './ridden-on.ts';
import { type SeenSince, seenSince } from './seen-since.ts';
import type { SettingNow } from './setting-now.ts';
import { shiftsWell } from './shifts-well.ts';
import { type SkippingNow, skippingNow } from './skipping-now.ts';
import { type StandsWhereLost, standsWhereLost } from './stands-where-lost.ts';
import { shareStandingOut, stillThere } from './still-there.ts';
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
  readonly trials: Readonly<Record<CassetteEnd, LimitTrial>>;
  /** The one by which the cause is judged: a limit screw's, where that limit was touched since the first ride. Else null. */
  readonly trial: LimitTrial | null;
  /** Limits that were turned back to where they let the chain past: none of an end that is not to be kept off. */
  readonly whereLost: readonly StandsWhereLost[];
  /** How far it was turned that way, all in all: clicks, steps or turns; 0 where it was not. */
  readonly turnedSoFar: number;
}

/** What `bikeNow` goes by. */
export interface NowFacts {
  readonly bike: Pick<Bike, 'cassette'>;
  /** All rides of the bike. */
  readonly rides: readonly DiagnosisRide[];
  /** In order of time. */
  readonly adjustments: readonly Adjustment[];
  readonly evidence: Pick<RidingEvidence, 'groups' | 'looks'>;
  readonly particles: readonly Particle[];
  readonly cause: Cause;
  readonly probability: number;
  /** Turns that would set the indexing right, with their sign. */
  readonly clicks: TurnEstimate;
  /** Shifts that could be weighed, over all rides. */
  readonly judgedShifts: number;
  /** What each adjustment that stands did, in order of time. */
  readonly comparisons: readonly AdjustmentComparison[];
  /** Whether the newest rides shift well, by whatever was done. */
  readonly wellSince: ShiftsWellSince | null;
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
  const trials = trialsOf(facts);
  const keepOff = new Set(cassetteEnds.filter((end) => isUnproven(trials[end])));
  const whereLost = [...keepOff].flatMap((end) => standsWhereLost(end, rides, facts.adjustments) ?? []);
  const trial = trialOfCause(cause, trials, turned);
  const turnedSoFar = turnedAgainst(cause, turned);
  const turnedRight = turnedSoFar > 0;
  const left = tested ? leftOf(facts, trial, turnedRight) : 1;
  const lastAt = adjustments.at(-1)?.at;
  const lastGroup =
    evidence.groups.findLast(({ adjustments: made }) => made.some(({ at }) => at === lastAt))?.adjustments ?? [];
  const tooFar = found && { ...found, byLast: found.lastTowards && lastGroup.some(({ at }) => at === found.lastAt) };
  const opposite = oppositeOf(cause);
  const own = particles.filter((particle) => particle.cause === cause);
  const past = tested && opposite ? shareStandingOut(own, opposite) : 0;
  const lost = cassetteEnds.some((end) => since.lost(end) > 0);
  const then = { since, tested, lost, left, past, trial, turnedRight };
  const setting = tooFar ? 'overdone' : settingOf(facts, then);
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

function trialsOf({ rides, adjustments, bike, evidence }: NowFacts): BikeNow['trials'] {
  const trialOf = (end: CassetteEnd): LimitTrial => {
    const looked = evidence.looks.filter(({ parameter }) => ['hanger', limitAt[end].parameter].includes(parameter));
    const done = inOrderOfTime([...adjustments, ...looked.map((look) => ({ ...look, amount: 0 }))]);
    return limitTrial(end, rides, sinceFirstRide(done, rides), bike.cassette.length);
  };
  return { 'past-largest': trialOf('past-largest'), 'past-smallest': trialOf('past-smallest') };
}

function trialOfCause(cause: Cause, trials: BikeNow['trials'], turned: readonly Adjustment[]): LimitTrial | null {
  const end = endOfLimit(cause);
  return end && turned.some(({ parameter }) => canBring(cause, parameter)) ? trials[end] : null;
}

function turnedAgainst(cause: Cause, turned: readonly Adjustment[]): number {
  const opposite = oppositeOf(cause);
  return (opposite && turnedTowards(opposite, turned)?.amount) ?? 0;
}

/** Whether chains were lost past an end, and its limit was screwed in since: its own end cog then says more than how far a turn may reach. */
const provedByTrial = (trial: LimitTrial | null, turnedRight: boolean): trial is LimitTrial =>
  trial !== null && turnedRight && trial.before.lost > 0;

function leftOf({ particles, cause }: NowFacts, trial: LimitTrial | null, turnedRight: boolean): number {
  if (trial && !isTried(cause, trial)) return 1;
  return provedByTrial(trial, turnedRight) && isLoose(cause) ? 1 - trial.holds : stillThere(particles, cause);
}

/** What was turned before the first ride moves nothing of the fault that it found. */
function sinceFirstRide<One extends Pick<Adjustment, 'at'>>(
  adjustments: readonly One[],
  rides: readonly DiagnosisRide[],
): One[] {
  const firstMs = Math.min(...rides.map(({ startMs }) => startMs).filter(hasClock));
  return adjustments.filter(({ at }) => Date.parse(at) >= firstMs);
}

interface SinceThen {
  readonly since: SeenSince;
  readonly tested: boolean;
  /** Whether a chain was lost past an end of the cassette. */
  readonly lost: boolean;
  readonly left: number;
  readonly past: number;
  readonly trial: LimitTrial | null;
  readonly turnedRight: boolean;
}

const LIKELIER_THAN_NOT = 0.5;

function settingOf(facts: NowFacts, then: SinceThen): Exclude<SettingNow, 'overdone' | 'another'> {
  const { cause, clicks, particles } = facts;
  const { since, tested, lost, left, past, trial } = then;
  if (!since.last || cause === 'no-fault') return 'same';
  if (!tested) return failsLike(cause, since) ? 'same' : lost ? 'unsettled' : 'untested';
  if (trial && !failsLike(cause, since)) {
    if (!isTried(cause, trial)) return lost ? 'unsettled' : 'untested';
    if (isLoose(cause) && provedByTrial(trial, then.turnedRight) && trial.holds < DECIDED_AT) return 'unsettled';
  }
  if (isCured(cause, then)) return goneUnlogged(particles, cause) < LIKELIER_THAN_NOT ? 'cured' : 'unsettled';
  const there = left >= past && (left >= LIKELIER_THAN_NOT || failsLike(cause, since));
  const mayBeMended = gotBetterSince(facts, since) || awaitsProof(facts, since);
  return there && pointsTheSameWay(cause, clicks) && !mayBeMended ? 'same' : 'unsettled';
}

/**
 * Whether what was done last made it better for sure, and where the fault shows hardly anything went wrong since, plainly less than before: what the imagined
 * bikes make of its amount does not outweigh that.
 */
function gotBetterSince({ rides, bike, cause, comparisons }: NowFacts, { last, seen, lost }: SeenSince): boolean {
  const better = last && betterSince(comparisons, cause, last.at, seen);
  if (!better || better.wrongWay || cassetteEnds.some((end) => lost(end) > 0)) return false;
  const inAll = observe(rides, bike);
  const place = causePlace(cause, inAll);
  const [all, since] = [inAll, seen].map((some) => (place ? shiftsAt(some, place) : some.all));
  const before = { shifts: all.shifts - since.shifts, trouble: all.trouble - since.trouble };
  return wilsonInterval(since.trouble, since.shifts).high < wilsonInterval(before.trouble, before.shifts).low;
}

/** Whether what was done last goes against the fault, nothing went wrong since where that shows, and it helped for sure, or so few more shifts will tell that they come before any further turn. */
function awaitsProof({ cause, comparisons }: NowFacts, { seen }: SeenSince): boolean {
  const last = comparisons.at(-1);
  // one that is proved already to have helped is left no less alone than one that is still to be proved
  if (!last || !(awaitedProof(comparisons) || helpedForSure(last)) || !goesAgainst(cause, last)) return false;
  const place = causePlace(cause, seen);
  const { shifts, trouble } = place ? shiftsAt(seen, place) : seen.all;
  return shifts > 0 && trouble === 0;
}

/** Most likely there no longer, nor turned past the mark, and the rides since do not fail. A chain lost past an end is a failure. */
function isCured(cause: Cause, { since, lost, left, past, trial, turnedRight }: SinceThen): boolean {
  const { seen } = since;
  if (lost || anyShiftsFail(seen) || ghostsOften(seen) || (cause === 'worn-drivetrain' && failsLike(cause, since)))
    return false;
  // as sure as the entry has to be before it is said to have helped
  if (isLoose(cause) && provedByTrial(trial, turnedRight)) return trial.holds >= DECIDED_AT;
  // shifts show how the indexing stands, but not whether a limit that was opened stops the chain
  return left + past < CURED_BELOW || (left < CURED_BELOW && isIndexing(cause) && shiftsWell(seen));
}

import { isSparse, SPARSE_STEP_S } from '../../gear-trace/samples/typical-step.ts';
import type { CommandedShift } from '../commands/commanded-shifts.ts';
import { pedalledBetween } from '../commands/pedalled-between.ts';
import { namesTwoCogs } from '../of-one-count.ts';
import type { ChainDropEvent, Outcome, OutcomeProbability, ShiftEvent, UnjudgedReason } from '../ride-events.ts';
import type { RideInQuestion } from '../ride-in-question.ts';
import { arrivalTable } from '../stories/arrival-table.ts';
import { estimateTiming } from '../stories/estimate-timing.ts';
import { shiftContexts } from '../stories/shift-context.ts';
import { type ShiftStories, shiftStories } from '../stories/shift-stories.ts';
import type { ShiftTiming } from '../stories/shift-timing.ts';
import { longestStepS } from '../turns/longest-step.ts';
import { unjudged } from '../unjudged.ts';
import { whileUnsteady } from '../while-unsteady.ts';
import { cutByDrop } from './cut-by-drop.ts';
import { hardlyDriven } from './hardly-driven.ts';
import { loadDuring } from './load-during.ts';
import { outcomeShares } from './outcome-shares.ts';
import { saysLittle } from './says-little.ts';
import { shiftOverS } from './shift-over.ts';
import { outcomesOf, type Shares, weighStory } from './weigh-story.ts';

/** The contract: a shift is judged if the rider pedals for so long after it, before the next. */
const MIN_PEDALLED_S = 2;

/** The judged shifts of a ride with a trace, and the timing that was found on the way. */
export interface JudgedShifts {
  readonly shifts: ShiftEvent[];
  readonly timing: ShiftTiming;
}

/**
 * Judges every commanded shift: for each the probability that the chain was on the commanded cog within 1.5 turns of the cranks,
 * within 5, not at all, or went beyond, with the ride's own lag, smearing and share of troubled shifts (empirical Bayes:
 * Efron and Morris 1973), the latter for each direction. A shift after which the chain came off (`drops`) was likely missed. Where records
 * lie far apart, or the legs hardly drove the wheel, one of which they hardly tell is left unjudged, as one that nobody saw; so is every one made
 * while the speed drifted, and every one onto or from a tooth count that stands for two cogs.
 */
export function judgeShifts(
  ride: RideInQuestion,
  commanded: readonly CommandedShift[],
  drops: readonly ChainDropEvent[],
): JudgedShifts {
  const { log, clock } = ride;
  const timing = estimateTiming(ride, commanded);
  const beforehand = commanded.map((shift) => unjudgedBeforehand(ride, shift, timing));
  const stories = commanded.map((shift, j) => {
    if (beforehand[j]) return null;
    const tables = shiftContexts(ride, commanded, j, timing.lagS).map((context) =>
      arrivalTable(ride, shift, context, timing.riseWidthS),
    );
    return tables.some(({ seen }) => seen > 0) ? shiftStories(tables, timing, clock) : null;
  });
  const sharesOf = outcomeShares(commanded, stories);
  const betweenRecords = passesBetweenRecords(ride, timing);
  const undriven = hardlyDriven(ride, timing);

  const shifts = commanded.map((shift, i): ShiftEvent => {
    const story = stories[i];
    const shares = sharesOf[i];
    const asked = { ...askedFor(shift), ...loadDuring(log, shift, clock), weak: false };
    if (!story || !shares) return { ...asked, ...unjudged(beforehand[i] ?? 'not-seen') };
    const verdict = judged(story, shares, { shift, drops });
    const unseen = (betweenRecords(shift) || undriven(shift)) && saysLittle(verdict.probability, verdict.expected);
    return { ...asked, ...(unseen ? unjudged('not-seen') : verdict) };
  });
  return { shifts, timing };
}

/**
 * Why a shift cannot be judged, whatever is seen of it; null where it can. The seconds pedalled after it are those that the sensors show once
 * they show the shift itself: what late ones show before that was pedalled before the command.
 */
function unjudgedBeforehand(
  { log, trace, clock }: RideInQuestion,
  shift: CommandedShift,
  { lagS }: ShiftTiming,
): UnjudgedReason | null {
  const pedalledS = pedalledBetween(log.timeS, trace.samples, clock, shift.lastTimeS + lagS, shift.untilS + lagS);
  if (pedalledS < MIN_PEDALLED_S) return 'no-pedalling';
  if (namesTwoCogs(trace, shift)) return 'two-cogs-one-count';
  return whileUnsteady(trace, shift.timeS) ? 'astray' : null;
}

/** Tells the shifts that may begin and end between two records; none in a ride whose records are mostly dense. */
function passesBetweenRecords(ride: RideInQuestion, timing: ShiftTiming) {
  const { log, trace } = ride;
  if (!isSparse(trace.samples)) return () => false;
  return (shift: CommandedShift): boolean =>
    longestStepS(log.timeS, shift.lastTimeS, shiftOverS(ride, timing, shift)) > SPARSE_STEP_S;
}

const askedFor = ({ timeS, lastTimeS, fromCog, toCog, direction, cogsToCross }: CommandedShift) => ({
  timeS,
  lastTimeS,
  fromCog,
  toCog,
  direction,
  cogsToCross,
});

/** What a shift's story says of it, given the ride's shares of outcomes. */
function judged(
  story: ShiftStories,
  shares: Shares,
  { shift, drops }: { readonly shift: CommandedShift; readonly drops: readonly ChainDropEvent[] },
): Pick<
  ShiftEvent,
  'cogsToCross' | 'outcome' | 'unjudgedBecause' | 'crankRevs' | 'confidence' | 'probability' | 'expected'
> {
  const { probability: untilCut, crankRevs } = weighStory(story, shares);
  const probability = cutByDrop(untilCut, shift, drops);
  const outcome = namedOutcome(probability);
  return {
    cogsToCross: story.alreadyThere ? 0 : shift.cogsToCross,
    outcome,
    unjudgedBecause: null,
    crankRevs: outcome === 'clean' || outcome === 'late' ? crankRevs(outcome) : null,
    confidence: probability[outcome],
    probability,
    expected: outcomesOf(shares),
  };
}

/** Clean, or the likeliest kind of trouble where trouble of any kind is the likelier. */
function namedOutcome(probability: OutcomeProbability): Exclude<Outcome, 'unjudged'> {
  if (probability.clean >= 0.5) return 'clean';
  return (['late', 'missed', 'overshot'] as const).reduce((best, name) =>
    probability[name] > probability[best] ? name : best,
  );
}

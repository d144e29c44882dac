import { logistic } from '../../numeric/logistic.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../../shifts/turn-limits.ts';
import { cogCell, LOAD_BINS, moveCell, outcomes } from '../evidence/evidence-table.ts';
import { frictionOn, pulleyError, type Setup } from './setup.ts';

/** What a setup leads one to expect, on every cog and in both directions. Laid out as in EvidenceSegment. */
export interface PulleyRates {
  /** Probability of each outcome. */
  readonly outcome: Float64Array;
  /** Crank turns a shift takes longer than on a healthy bike, by cog and direction. */
  readonly slowRevs: Float64Array;
  /** Unasked shifts a second, by the way the last shift was asked for, the cog that is left and the direction (`moveCell`). */
  readonly ghostPerS: Float64Array;
  /** Skips a second by cog. */
  readonly skipPerS: Float64Array;
  /** Chain drops for a shift onto the largest cog, onto the smallest, and for any other. */
  readonly drop: Float64Array;
  /** Load bins, and cogs and directions, whose outcomes are filled: those that are asked for. */
  readonly loads: readonly number[];
  readonly usedCells: Uint8Array;
}

/** Room for the rates of a bike with so many cogs, all 0. */
export function emptyRates(cassetteLength: number, loads: readonly number[], usedCells: Uint8Array): PulleyRates {
  return {
    outcome: new Float64Array(2 * cassetteLength * LOAD_BINS * outcomes.length),
    slowRevs: new Float64Array(2 * cassetteLength),
    ghostPerS: new Float64Array(4 * cassetteLength),
    skipPerS: new Float64Array(cassetteLength),
    drop: new Float64Array(3),
    loads,
    usedCells,
  };
}

/** Steps of torque of the load bins: low, middle, high, unknown; and how much of the rider's own trouble falls there. */
const loadSteps = [-0.6, 0.4, 1.2, 0];
const riderShare = [0, 0.2, 1, 0.2];

/** More sizes taken for granted (assumptions of ours, with the range within which they are plausible). */
const taken = {
  /** How steeply a small gap's trouble sets in from the first cog it touches to the largest (1 to 2.5). */
  smallGapRamp: 1.6,
  /** No gap spoils more shifts than this (0.9 to 1). */
  mostGapTrouble: 0.97,
  /** Shifts that run past the cog on a bike in order (0.0003 to 0.003). */
  overshotInOrder: 0.0008,
  /** Share of the shifts spoiled by the pulley's place that are missed far beyond the tolerance, and the width of the step up to it (0.85 to 1, 0.3 to 0.8). */
  mostMissed: 0.95,
  missedSoftness: 0.5,
  /** Share of the usual trouble that hangs on torque (0 to 0.6). */
  backgroundLoad: 0.3,
  /** The rider's own trouble to smaller cogs, of that to larger (0.3 to 1), and the share of it that is missed (0.2 to 0.5). */
  riderToSmaller: 0.6,
  riderMissed: 0.35,
  /** No shift is surer to go wrong than this leaves (1e-5 to 1e-3). */
  leastClean: 1e-4,
  /** Skips for each unasked shift that the pulley's place brings about (0 to 0.3). */
  skipsPerGhost: 0.1,
  /** Room beyond an end cog within which the chain is safe, less the tolerance (0.3 to 0.8). */
  safeRoom: 0.5,
  /** Drops elsewhere, in those that nobody caused past one end (1 to 4). */
  dropsElsewhere: 2,
};

/** Step from 0 to 1 in `distance` about the tolerance (1): a squared logistic, shifted to be 0 for a pulley that stands right. */
function beyond(distance: number, softness: number, atRest: number): number {
  if (distance <= 0) return 0;
  const step = logistic((distance - 1) / softness);
  return step > atRest ? ((step - atRest) / (1 - atRest)) ** 2 : 0;
}

/** What the step gives for a pulley that stands right, before the shift to 0. */
const stepAtRest = (softness: number): number => logistic(-1 / softness);

/** A pulley that stands beyond the cog hastens the chain by this share of what one as far short of it would delay it (assumption of ours). */
const EAGER = 0.3;

/**
 * A chain that is held back gets a chance to go over turn by turn. Where each turn's is the same, a shift that is not through within the turns of a
 * clean one is not through within those of a late one either with this power of the chance that it was not at first: where nearly all are held
 * back, most are missed.
 */
const TURNS_LEFT = LATE_WITHIN_REVS / CLEAN_WITHIN_REVS - 1;

/** Of the shifts that a wrong gap holds back, the share that is missed, where it holds back so many. */
const gapMissed = (setup: Setup, heldBack: number): number =>
  setup.gapMissed + (1 - setup.gapMissed) * setup.gapTurnByTurn * heldBack ** TURNS_LEFT;

/** Trouble a wrong gap makes on a cog (share 0..1) in a direction. */
function gapTrouble(setup: Setup, share: number, larger: boolean, atRest: number): number {
  if (setup.gap === 0) return 0;
  const size = setup.gapTrouble * beyond(Math.abs(setup.gap), setup.softness, atRest);
  if (setup.gap > 0) {
    const slope = larger ? setup.gapBreadth : setup.gapOtherSlope;
    return size * (larger ? 1 : setup.gapOtherWay) * Math.max(0, 1 - slope * (share - 0.5));
  }
  const ramp = Math.min(1, Math.max(0, 1 - (1 - share) / setup.gapBreadth) * taken.smallGapRamp);
  return size * ramp * (larger ? 1 : setup.gapOtherWay);
}

/** Fills the outcome probabilities of one cog and direction for every load that occurs. */
function fillOutcomes(setup: Setup, atRest: number, cog: CogMoment, row: number, rates: PulleyRates): void {
  const { share, larger, error } = cog;
  const { outcome, loads } = rates;
  const short = larger ? -error : error;
  const erratic =
    larger && setup.frictionBothWays > 0
      ? setup.frictionBothWays * beyond(frictionOn(setup, share), setup.softness, atRest)
      : 0;
  const index = setup.ceiling * Math.max(erratic, beyond(short, setup.softness, atRest));
  const gap = Math.min(taken.mostGapTrouble, gapTrouble(setup, share, larger, atRest));
  const overshot =
    taken.overshotInOrder + setup.overshootCeiling * beyond(-short - setup.overshootMargin, setup.softness, atRest);
  const reach = erratic > 0 ? Math.max(short, frictionOn(setup, share)) : short;
  const indexMissed =
    index === 0
      ? 0
      : setup.leastMissed +
        (taken.mostMissed - setup.leastMissed) * logistic((reach - 1 - setup.missedMargin) / taken.missedSoftness);
  const background = larger ? setup.backgroundIn : setup.backgroundOut;
  const eager = EAGER * beyond(-short, setup.softness, atRest);
  rates.slowRevs[row / (LOAD_BINS * outcomes.length)] = setup.slowRevs * (1 - (1 - index) * (1 - gap) - eager);
  for (const load of loads) {
    const harder = Math.exp(setup.loadEffect * loadSteps[load]);
    const loadedIndex = (index * harder) / (1 - index + index * harder);
    const loadedGap = (gap * harder) / (1 - gap + gap * harder);
    const loadedBackground = background * (1 - taken.backgroundLoad + taken.backgroundLoad * harder);
    const rider = setup.rider * riderShare[load] * (larger ? 1 : taken.riderToSmaller);
    const clean = (1 - loadedIndex) * (1 - loadedGap) * (1 - loadedBackground) * (1 - rider);
    const trouble = 1 - clean;
    const parts = loadedIndex + loadedGap + loadedBackground + rider;
    const faultMissed = loadedIndex * indexMissed + loadedGap * gapMissed(setup, loadedGap);
    const missedShare = (faultMissed + loadedBackground * setup.backgroundMissed + rider * taken.riderMissed) / parts;
    const hidden = ((1 - setup.lateSeen) * trouble * (loadedIndex + loadedGap - faultMissed)) / parts;
    const at = row + load * outcomes.length;
    const kept = 1 - overshot;
    outcome[at] = kept * Math.max(taken.leastClean, clean + hidden);
    outcome[at + 1] = kept * (trouble * (1 - missedShare) - hidden);
    outcome[at + 2] = kept * trouble * missedShare;
    outcome[at + 3] = overshot;
  }
}

interface CogMoment {
  readonly share: number;
  readonly larger: boolean;
  readonly error: number;
}

/** Expected rates of a setup. `usage` is the share of pedalling on each cog, the most used one at 1. */
export function fillRates(setup: Setup, usage: Float64Array, rates: PulleyRates): void {
  const size = usage.length;
  const { softness } = setup;
  const atRest = stepAtRest(softness);
  for (let cog = 0; cog < size; cog++) {
    const share = cog / (size - 1);
    const afterLarger = pulleyError(setup, share, true);
    const afterSmaller = pulleyError(setup, share, false);
    let leave = 0;
    for (const larger of [true, false]) {
      const cell = cogCell(size, larger, cog);
      const error = larger ? afterLarger : afterSmaller;
      if (rates.usedCells[cell])
        fillOutcomes(setup, atRest, { share, larger, error }, cell * LOAD_BINS * outcomes.length, rates);
      const sign = larger ? 1 : -1;
      for (const asked of [true, false]) {
        const pull = setup.ghostPerS * beyond(sign * (asked ? afterLarger : afterSmaller), softness, atRest);
        rates.ghostPerS[moveCell(size, asked, larger, cog)] = setup.falseGhostPerS / 2 + pull;
        leave += pull / 2;
      }
    }
    rates.skipPerS[cog] =
      setup.falseSkipPerS + taken.skipsPerGhost * leave + setup.skipPerS * usage[cog] ** setup.skipFocus;
  }
  rates.drop[0] = setup.falseDrop + setup.looseDrop * beyond(setup.lowClear - taken.safeRoom, softness, atRest);
  rates.drop[1] = setup.falseDrop + setup.looseDrop * beyond(setup.highClear - taken.safeRoom, softness, atRest);
  rates.drop[2] = setup.falseDrop * taken.dropsElsewhere;
}

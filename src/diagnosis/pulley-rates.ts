import { cogCell, loadBins, outcomes } from './evidence-table.ts';
import { pulleyError, type Setup } from './setup.ts';

/** What a setup leads one to expect, on every cog and in both directions. Laid out as in EvidenceSegment. */
export interface PulleyRates {
  /** Log probability of each outcome. */
  readonly logOutcome: Float64Array;
  /** Unasked shifts a second, by the cog that is left and the direction. */
  readonly ghostPerS: Float64Array;
  /** Skips a second by cog. */
  readonly skipPerS: Float64Array;
  /** Chain drops for a shift onto the largest cog, onto the smallest, and for any other. */
  readonly drop: Float64Array;
}

export function emptyRates(cassetteLength: number): PulleyRates {
  return {
    logOutcome: new Float64Array(2 * cassetteLength * loadBins * outcomes.length),
    ghostPerS: new Float64Array(2 * cassetteLength),
    skipPerS: new Float64Array(cassetteLength),
    drop: new Float64Array(3),
  };
}

/** Steps of torque of the load bins: low, middle, high, unknown; and how much of the rider's own trouble falls there. */
const loadSteps = [-0.6, 0.4, 1.2, 0];
const riderShare = [0, 0.2, 1, 0.3];

/** Step from 0 to 1 in `distance` about the tolerance (1): a squared logistic, shifted to be 0 for a pulley that stands right. */
function beyond(distance: number, softness: number): number {
  const atRest = 1 / (1 + Math.exp(1 / softness));
  const step = 1 / (1 + Math.exp((1 - distance) / softness));
  return step > atRest ? ((step - atRest) / (1 - atRest)) ** 2 : 0;
}

const sigmoid = (x: number): number => 1 / (1 + Math.exp(-x));

/** Trouble a wrong gap makes on a cog (share 0..1) in a direction. */
function gapTrouble(setup: Setup, share: number, larger: boolean): number {
  if (setup.gap === 0) return 0;
  const size = setup.gapTrouble * beyond(Math.abs(setup.gap), setup.softness);
  if (setup.gap > 0) return size * (larger ? 1 : setup.gapOtherWay) * (1 - setup.gapBreadth * (share - 0.5));
  const ramp = Math.min(1, Math.max(0, (share - (1 - setup.gapBreadth)) / 0.1 + 0.5));
  return size * ramp * (larger ? 1 : setup.gapOtherWay);
}

/** Fills the outcome probabilities of one cog and direction for every load. */
function fillOutcomes(setup: Setup, share: number, larger: boolean, row: number, logOutcome: Float64Array): void {
  const error = pulleyError(setup, share, larger);
  const short = larger ? -error : error;
  const index = setup.ceiling * beyond(short, setup.softness);
  const gap = Math.min(0.97, gapTrouble(setup, share, larger));
  const overshot = 0.0008 + setup.overshootCeiling * beyond(-short - setup.overshootMargin, setup.softness);
  const indexMissed = 0.05 + 0.9 * sigmoid((short - 1 - setup.missedMargin) / 0.5);
  const background = larger ? setup.backgroundIn : setup.backgroundOut;
  for (let load = 0; load < loadBins; load++) {
    const harder = Math.exp(setup.loadEffect * loadSteps[load]);
    const loadedIndex = (index * harder) / (1 - index + index * harder);
    const loadedGap = (gap * harder) / (1 - gap + gap * harder);
    const loadedBackground = background * (0.7 + 0.3 * harder);
    const rider = setup.rider * riderShare[load] * (larger ? 1 : 0.6);
    const trouble = 1 - (1 - loadedIndex) * (1 - loadedGap) * (1 - loadedBackground) * (1 - rider);
    const missedShare =
      (loadedIndex * indexMissed +
        loadedGap * setup.gapMissed +
        loadedBackground * setup.backgroundMissed +
        rider * 0.35) /
      (loadedIndex + loadedGap + loadedBackground + rider);
    const at = row + load * outcomes.length;
    const kept = 1 - overshot;
    logOutcome[at] = Math.log(kept * Math.max(1e-4, 1 - trouble));
    logOutcome[at + 1] = Math.log(kept * trouble * (1 - missedShare));
    logOutcome[at + 2] = Math.log(kept * trouble * missedShare);
    logOutcome[at + 3] = Math.log(overshot);
  }
}

/** Expected rates of a setup. `usage` is the share of pedalling on each cog, the most used one at 1. */
export function fillRates(setup: Setup, usage: Float64Array, rates: PulleyRates): void {
  const size = usage.length;
  for (let cog = 0; cog < size; cog++) {
    const share = cog / (size - 1);
    const afterLarger = pulleyError(setup, share, true);
    const afterSmaller = pulleyError(setup, share, false);
    let leave = 0;
    for (const larger of [true, false]) {
      const cell = cogCell(size, larger, cog);
      if (larger ? cog > 0 : cog < size - 1)
        fillOutcomes(setup, share, larger, cell * loadBins * outcomes.length, rates.logOutcome);
      const sign = larger ? 1 : -1;
      const pull = (beyond(sign * afterLarger, setup.softness) + beyond(sign * afterSmaller, setup.softness)) / 2;
      rates.ghostPerS[cell] = setup.falseGhostPerS / 2 + setup.ghostPerS * pull;
      leave += setup.ghostPerS * pull;
    }
    rates.skipPerS[cog] = setup.falseSkipPerS + 0.2 * leave + setup.skipPerS * usage[cog] ** setup.skipFocus;
  }
  rates.drop[0] = setup.falseDrop + setup.looseDrop * beyond(setup.lowClear - 0.5, setup.softness);
  rates.drop[1] = setup.falseDrop + setup.looseDrop * beyond(setup.highClear - 0.5, setup.softness);
  rates.drop[2] = setup.falseDrop * 2;
}

/**
 * How one imagined bike is set and how it behaves: every size the model needs. Lengths are counted in tolerances (how
 * far the guide pulley may stand off before shifts suffer); inboard is positive. `toleranceMm` turns them into mm.
 */
export interface Setup {
  toleranceMm: number;
  /** Indexing offset, the same on every cog. */
  offset: number;
  /** Hanger tilt: change of the error from the smallest cog to the largest, zero at `pivot` (share of the cassette). */
  tilt: number;
  pivot: number;
  /** How far the pulley lags inboard after a shift to-smaller, and outboard after one to-larger. */
  frictionOut: number;
  frictionIn: number;
  /** How much more friction holds the pulley back on the small cogs, where the spring pulls least, than on the large. */
  frictionSlope: number;
  /** Part of the to-smaller trouble from friction that shows to-larger too, without any error at rest: it is erratic. */
  frictionBothWays: number;
  /** Room the limits leave beyond the largest and the smallest cog; negative: they stop the pulley short. */
  lowClear: number;
  highClear: number;
  /** Pulley gap error in units of the harmless one: negative too small, positive too large. */
  gap: number;
  /** Share of the cassette, from the largest cog, that a small gap troubles. */
  gapBreadth: number;
  /** Share of shifts in trouble at a clearly wrong gap, of those missed where few are held back, and the other direction's part of a small gap's. */
  gapTrouble: number;
  gapMissed: number;
  gapOtherWay: number;
  /** Where a wrong gap holds most shifts back: from 0, each comes through in the end, to 1, each turn has the same chance and most are missed. */
  gapTurnByTurn: number;
  /** For a large gap: how much more it troubles shifts to-smaller at the largest cog than at the smallest, as `gapBreadth` does to-larger. */
  gapOtherSlope: number;
  /** Width of the step from working to failing. */
  softness: number;
  /** Trouble rate far beyond tolerance. */
  ceiling: number;
  /** Log odds of trouble added by one step of torque. */
  loadEffect: number;
  backgroundIn: number;
  backgroundOut: number;
  backgroundMissed: number;
  missedMargin: number;
  /** Share of the shifts spoiled by the pulley's place that are missed just beyond the tolerance; further off, more are. */
  leastMissed: number;
  /** Crank turns that a shift takes longer where all shifts are in trouble. */
  slowRevs: number;
  /** Share of the late shifts that the log shows as late; the others look clean. */
  lateSeen: number;
  overshootMargin: number;
  overshootCeiling: number;
  ghostPerS: number;
  falseGhostPerS: number;
  falseSkipPerS: number;
  /** Skips a second on the most used cog of a worn drivetrain, 0 otherwise, and how they gather on the most used cogs. */
  skipPerS: number;
  skipFocus: number;
  falseDrop: number;
  looseDrop: number;
  /** Trouble that the rider's own hard pedalling makes at the highest torque; 0 for most riders. */
  rider: number;
}

/** How far the pulley lags inboard after a shift to-smaller onto a cog. */
export function frictionOn(setup: Setup, share: number): number {
  return setup.frictionOut * Math.max(0, 1 + setup.frictionSlope * (1 - 2 * share));
}

/** Index error on a cog (share 0 = smallest, 1 = largest) after a shift in a direction, before the limits cut it off. */
function freeError(setup: Setup, share: number, larger: boolean): number {
  const lag = larger ? -setup.frictionIn : frictionOn(setup, share);
  return setup.offset + setup.tilt * (share - setup.pivot) + lag;
}

/** The same, as far as the limits let the pulley go. */
export function pulleyError(setup: Setup, share: number, larger: boolean): number {
  const error = freeError(setup, share, larger);
  if (share >= 1) return Math.min(error, setup.lowClear);
  if (share <= 0) return Math.max(error, -setup.highClear);
  return error;
}

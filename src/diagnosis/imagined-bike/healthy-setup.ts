import { riderPart } from '../assumptions.ts';
import type { Draw } from './draw.ts';
import { between, betweenOnLogScale, logit } from './ranges.ts';
import type { Setup } from './setup.ts';

/**
 * What is not among `assumptions` since no verdict hangs on it alone: the shapes of a healthy bike, as fixed sizes
 * and as ranges to draw from. Status and units as there: assumptions of ours, common practice in the trade, no source; lengths in
 * tolerances, shares and rates 0 to 1, unless a line says otherwise.
 */
export const inOrder = {
  /** Spread of the tilt, logistic, from one end of the cassette to the other. */
  tilt: 0.15,
  /** The cassette's middle, as a share of its breadth: a hanger tilts about it. */
  pivot: 0.5,
  mostFrictionOut: 0.25,
  mostFrictionIn: 0.1,
  clear: [0.2, 0.9],
  gapBreadth: 0.3,
  gapMissed: 0.1,
  gapOtherWay: 0.2,
  ceiling: [0.45, 0.99],
  mostBackground: 0.2,
  backgroundMissed: [0.05, 0.5],
  leastMissed: [0.02, 0.5],
  overshootCeiling: [0.05, 0.7],
} as const;
/** Part of the bikes have a rider who shifts under load; `u` within the prior's share says how much it troubles. */
function riderTrouble(u: number): number {
  if (u >= riderPart.prior) return 0;
  return betweenOnLogScale([riderPart.low, riderPart.high], u / riderPart.prior);
}

/** A healthy bike: every setting a little off, nothing beyond its tolerance. */
export function healthySetup(draw: Draw, cogPitchMm: number, electronic: boolean): Setup {
  const off = draw.assumed.healthyOffset;
  const bias = Math.sqrt(draw.assumed.directionBias);
  return {
    toleranceMm: draw.assumed.toleranceShare * cogPitchMm,
    offset: draw.shape.offsetSide < 0.5 ? -off : off,
    tilt: inOrder.tilt * logit(draw.shape.tiltSide),
    pivot: inOrder.pivot,
    frictionOut: electronic ? 0 : inOrder.mostFrictionOut * draw.shape.friction,
    frictionIn: electronic ? 0 : inOrder.mostFrictionIn * draw.shape.friction,
    frictionSlope: 0,
    frictionBothWays: 0,
    lowClear: between(inOrder.clear, draw.shape.clear),
    highClear: between(inOrder.clear, 1 - draw.shape.clear),
    gap: 0,
    gapBreadth: inOrder.gapBreadth,
    gapTrouble: draw.assumed.gapTrouble,
    gapMissed: inOrder.gapMissed,
    gapOtherWay: inOrder.gapOtherWay,
    gapTurnByTurn: 0,
    gapOtherSlope: 0,
    softness: draw.assumed.softness,
    ceiling: between(inOrder.ceiling, draw.shape.ceiling),
    loadEffect: draw.assumed.loadEffect,
    backgroundIn: Math.min(inOrder.mostBackground, draw.assumed.backgroundRate * bias),
    backgroundOut: Math.min(inOrder.mostBackground, draw.assumed.backgroundRate / bias),
    backgroundMissed: between(inOrder.backgroundMissed, draw.shape.backgroundMissed),
    missedMargin: draw.assumed.missedMargin,
    leastMissed: between(inOrder.leastMissed, draw.shape.leastMissed),
    slowRevs: draw.assumed.slowRevs,
    lateSeen: Math.min(1, draw.assumed.lateSeen),
    overshootMargin: draw.assumed.overshootMargin,
    overshootCeiling: between(inOrder.overshootCeiling, draw.shape.overshootCeiling),
    ghostPerS: draw.assumed.ghostPerHour / 3600,
    falseGhostPerS: draw.assumed.falseGhostPerHour / 3600,
    falseSkipPerS: draw.assumed.falseSkipPerHour / 3600,
    skipPerS: 0,
    skipFocus: 1,
    falseDrop: draw.assumed.falseDropPerShift,
    looseDrop: draw.assumed.looseDropPerShift,
    rider: riderTrouble(draw.shape.rider),
  };
}

import { type Assumption, type AssumptionName, assumptions, riderPart } from './assumptions.ts';
import type { Cause } from './causes.ts';
import type { Setup } from './setup.ts';

/**
 * Dimensions of a draw: the named assumptions first, each a dimension of its own so that the sensitivity check can hold
 * it to a part of its range, then the free shapes of a fault.
 */
export const assumptionNames = Object.keys(assumptions) as AssumptionName[];
const shapes = [
  'ceiling',
  'backgroundMissed',
  'overshootCeiling',
  'offsetSide',
  'tiltSide',
  'friction',
  'clear',
  'rider',
  'shape',
  'side',
  'share',
  'slope',
  'cureOwn',
  'cureByTheWay',
] as const;
type Shape = (typeof shapes)[number];
/** Dimensions of the unit cube that setups are drawn from. */
export const drawDimensions = assumptionNames.length + shapes.length;

/** 97.5 % point of the standard logistic distribution. */
const logistic975 = Math.log(0.975 / 0.025);
const logit = (u: number): number => Math.log(u / (1 - u));

/** Value at the share `u` of an assumption's spread: logistic on a log scale, so with heavy tails, cut at 0.5 %. */
export function assumedValue(assumption: Assumption, u: number): number {
  const held = Math.min(0.995, Math.max(0.005, u));
  const middle = Math.log(assumption.low * assumption.high) / 2;
  return Math.exp(middle + ((Math.log(assumption.high / assumption.low) / 2) * logit(held)) / logistic975);
}

/** One point of the unit cube: the assumptions at their values, the free shapes between 0 and 1. */
export interface Draw {
  readonly assumed: Readonly<Record<AssumptionName, number>>;
  readonly shape: Readonly<Record<Shape, number>>;
}

/** The point in row `row` of `points`, row-major with `drawDimensions` columns, values 0 to 1. */
export function readDraw(points: Float64Array, row: number): Draw {
  const from = row * drawDimensions;
  const assumed = {} as Record<AssumptionName, number>;
  const shape = {} as Record<Shape, number>;
  assumptionNames.forEach((name, i) => {
    assumed[name] = assumedValue(assumptions[name], points[from + i]);
  });
  shapes.forEach((name, i) => {
    shape[name] = points[from + assumptionNames.length + i];
  });
  return { assumed, shape };
}

/** A draw's position within an assumption's spread, 0 to 1. */
export function assumptionShare(points: Float64Array, row: number, name: AssumptionName): number {
  return points[row * drawDimensions + assumptionNames.indexOf(name)];
}

const between = (low: number, high: number, u: number): number => low + (high - low) * u;

/** Part of the bikes have a rider who shifts under load; `u` within the prior's share says how much it troubles. */
function riderTrouble(u: number): number {
  if (u >= riderPart.prior) return 0;
  return riderPart.low * (riderPart.high / riderPart.low) ** (u / riderPart.prior);
}

/** A healthy bike: every setting a little off, nothing beyond its tolerance. */
export function healthySetup(draw: Draw, cogPitchMm: number, electronic: boolean): Setup {
  const off = draw.assumed.healthyOffset;
  const bias = Math.sqrt(draw.assumed.directionBias);
  return {
    toleranceMm: draw.assumed.toleranceShare * cogPitchMm,
    offset: draw.shape.offsetSide < 0.5 ? -off : off,
    tilt: 0.15 * logit(draw.shape.tiltSide),
    pivot: 0.5,
    frictionOut: electronic ? 0 : 0.25 * draw.shape.friction,
    frictionIn: electronic ? 0 : 0.1 * draw.shape.friction,
    frictionSlope: 0,
    frictionBothWays: 0,
    lowClear: between(0.2, 0.9, draw.shape.clear),
    highClear: between(0.2, 0.9, 1 - draw.shape.clear),
    gap: 0,
    gapBreadth: 0.3,
    gapTrouble: draw.assumed.gapTrouble,
    gapMissed: 0.1,
    gapOtherWay: 0.2,
    softness: draw.assumed.softness,
    ceiling: between(0.45, 0.99, draw.shape.ceiling),
    loadEffect: draw.assumed.loadEffect,
    backgroundIn: Math.min(0.2, draw.assumed.backgroundRate * bias),
    backgroundOut: Math.min(0.2, draw.assumed.backgroundRate / bias),
    backgroundMissed: between(0.05, 0.5, draw.shape.backgroundMissed),
    missedMargin: draw.assumed.missedMargin,
    slowRevs: draw.assumed.slowRevs,
    lateSeen: Math.min(1, draw.assumed.lateSeen),
    overshootMargin: draw.assumed.overshootMargin,
    overshootCeiling: between(0.05, 0.7, draw.shape.overshootCeiling),
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

/** The limit stops sit on the derailleur: a bent hanger carries them along. */
function movedStops(healthy: Setup, tilt: number, pivot: number): Pick<Setup, 'lowClear' | 'highClear'> {
  return { lowClear: healthy.lowClear + tilt * (1 - pivot), highClear: healthy.highClear + tilt * pivot };
}

/** The same bike with one cause's parameter set wrong. */
export function faultySetup(cause: Cause, draw: Draw, healthy: Setup): Setup {
  const size = draw.assumed.faultSize;
  const shape = draw.shape.shape;
  switch (cause) {
    case 'no-fault':
      return { ...healthy };
    case 'cable-tension-low':
      return { ...healthy, offset: -size };
    case 'cable-tension-high':
      return { ...healthy, offset: size };
    case 'low-limit-tight':
      return { ...healthy, lowClear: -size };
    case 'low-limit-loose':
      return { ...healthy, lowClear: 1.5 + size };
    case 'high-limit-tight':
      return { ...healthy, highClear: -size };
    case 'high-limit-loose':
      return { ...healthy, highClear: 1.5 + size };
    case 'pulley-gap-small':
      return {
        ...healthy,
        gap: -0.5 - size,
        gapBreadth: between(0.2, 0.7, shape),
        gapMissed: between(0.02, 0.45, draw.shape.side),
        gapOtherWay: 0.6 * draw.shape.share ** 2,
      };
    case 'pulley-gap-large':
      return {
        ...healthy,
        gap: 0.5 + size,
        gapMissed: between(0.01, 0.3, draw.shape.side),
        gapOtherWay: 0.25 * (1.5 / 0.25) ** draw.shape.share,
        gapBreadth: between(-0.5, 0.3, shape),
      };
    case 'hanger-bent': {
      const tilt = (draw.shape.side < 0.5 ? -1 : 1) * 1.7 * size;
      const pivot = Math.min(1.1, Math.max(-0.1, 0.5 + 0.075 * logit(shape)));
      return { ...healthy, offset: 0, tilt, pivot, ...movedStops(healthy, tilt, pivot) };
    }
    case 'cable-friction': {
      // what sticks does not creep on: shifts are lost rather than late, and those that come through are hardly slowed
      const frictionSlope = between(-0.1, 2, draw.shape.slope);
      return {
        ...healthy,
        frictionOut: size / (1 + Math.max(0, frictionSlope)),
        frictionSlope,
        frictionIn: size * 0.4 * draw.shape.side ** 2,
        frictionBothWays: 0.65 * draw.shape.share ** 1.5,
        softness: healthy.softness + 0.05 * size,
        missedMargin: healthy.missedMargin * 0.1 * (2 / 0.1) ** shape,
        slowRevs: healthy.slowRevs * between(0.05, 0.8, shape),
      };
    }
    case 'worn-drivetrain':
      return {
        ...healthy,
        skipPerS: draw.assumed.wornSkipPerHour / 3600,
        skipFocus: between(0, 1.5, shape),
        backgroundIn: Math.min(0.2, healthy.backgroundIn * between(1, 2.5, draw.shape.share)),
        backgroundOut: Math.min(0.2, healthy.backgroundOut * between(1, 2.5, draw.shape.share)),
      };
  }
}

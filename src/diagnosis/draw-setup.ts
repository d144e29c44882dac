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
function assumedValue(assumption: Assumption, u: number): number {
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

const between = ([low, high]: readonly [number, number], u: number): number => low + (high - low) * u;
const betweenOnLogScale = ([low, high]: readonly [number, number], u: number): number => low * (high / low) ** u;

/**
 * What is not among `assumptions` since no verdict hangs on it alone: the shapes of a healthy bike and of each fault, as fixed sizes
 * and as ranges to draw from. Status and units as there: assumptions of ours, common practice in the trade, no source; lengths in
 * tolerances, shares and rates 0 to 1, unless a line says otherwise.
 */
const inOrder = {
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
  overshootCeiling: [0.05, 0.7],
} as const;
/** Share of the cassette, from the largest cog, that a small gap may trouble. */
export const smallGapBreadth: readonly [number, number] = [0.2, 0.7];

const outOfOrder = {
  /** A loose limit leaves at least so much room: then the chain can pass. */
  looseClear: 1.5,
  /** A wrong gap is off by at least so much, in units of the harmless error. */
  leastGap: 0.5,
  smallGap: { breadth: smallGapBreadth, missed: [0.02, 0.45], mostOtherWay: 0.6 },
  /** A large gap frees more of the chain on some cassettes at the small cogs, on others at the large, for each direction in its own way. */
  largeGap: { breadth: [-1, 0.5], missed: [0.01, 0.3], otherWay: [0.25, 1.5], otherSlope: [-1, 1.5] },
  /** Tilt over the whole cassette for each tolerance of the fault's size, and where its pivot may lie, logistic and cut off. */
  hanger: { tilt: 1.7, pivotSpread: 0.075, pivot: [-0.1, 1.1] },
  friction: {
    slope: [-0.1, 2],
    mostIn: 0.4,
    mostBothWays: 0.65,
    softer: 0.05,
    /** Parts of a healthy bike's margin and crank turns. */
    missedMargin: [0.1, 2],
    slowRevs: [0.05, 0.8],
  },
  /** How skips gather on the most used cogs, as a power of their use, and how many times more often all else goes wrong. */
  worn: { focus: [0, 1.5], background: [1, 2.5] },
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
    gapOtherSlope: 0,
    softness: draw.assumed.softness,
    ceiling: between(inOrder.ceiling, draw.shape.ceiling),
    loadEffect: draw.assumed.loadEffect,
    backgroundIn: Math.min(inOrder.mostBackground, draw.assumed.backgroundRate * bias),
    backgroundOut: Math.min(inOrder.mostBackground, draw.assumed.backgroundRate / bias),
    backgroundMissed: between(inOrder.backgroundMissed, draw.shape.backgroundMissed),
    missedMargin: draw.assumed.missedMargin,
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
      return { ...healthy, lowClear: outOfOrder.looseClear + size };
    case 'high-limit-tight':
      return { ...healthy, highClear: -size };
    case 'high-limit-loose':
      return { ...healthy, highClear: outOfOrder.looseClear + size };
    case 'pulley-gap-small':
      return {
        ...healthy,
        gap: -outOfOrder.leastGap - size,
        gapBreadth: between(outOfOrder.smallGap.breadth, shape),
        gapMissed: between(outOfOrder.smallGap.missed, draw.shape.side),
        gapOtherWay: outOfOrder.smallGap.mostOtherWay * draw.shape.share ** 2,
      };
    case 'pulley-gap-large':
      return {
        ...healthy,
        gap: outOfOrder.leastGap + size,
        gapMissed: between(outOfOrder.largeGap.missed, draw.shape.side),
        gapOtherWay: betweenOnLogScale(outOfOrder.largeGap.otherWay, draw.shape.share),
        gapBreadth: between(outOfOrder.largeGap.breadth, shape),
        gapOtherSlope: between(outOfOrder.largeGap.otherSlope, draw.shape.slope),
      };
    case 'hanger-bent': {
      const { hanger } = outOfOrder;
      const tilt = (draw.shape.side < 0.5 ? -1 : 1) * hanger.tilt * size;
      const [least, most] = hanger.pivot;
      const pivot = Math.min(most, Math.max(least, inOrder.pivot + hanger.pivotSpread * logit(shape)));
      return { ...healthy, offset: 0, tilt, pivot, ...movedStops(healthy, tilt, pivot) };
    }
    case 'cable-friction': {
      // what sticks does not creep on: shifts are lost rather than late, and those that come through are hardly slowed
      const { friction } = outOfOrder;
      const frictionSlope = between(friction.slope, draw.shape.slope);
      const [least, most] = friction.missedMargin;
      return {
        ...healthy,
        frictionOut: size / (1 + Math.max(0, frictionSlope)),
        frictionSlope,
        frictionIn: size * friction.mostIn * draw.shape.side ** 2,
        frictionBothWays: friction.mostBothWays * draw.shape.share ** 1.5,
        softness: healthy.softness + friction.softer * size,
        missedMargin: healthy.missedMargin * least * (most / least) ** shape,
        slowRevs: healthy.slowRevs * between(friction.slowRevs, shape),
      };
    }
    case 'worn-drivetrain': {
      const worse = between(outOfOrder.worn.background, draw.shape.share);
      return {
        ...healthy,
        skipPerS: draw.assumed.wornSkipPerHour / 3600,
        skipFocus: between(outOfOrder.worn.focus, shape),
        backgroundIn: Math.min(inOrder.mostBackground, healthy.backgroundIn * worse),
        backgroundOut: Math.min(inOrder.mostBackground, healthy.backgroundOut * worse),
      };
    }
  }
}

import type { Cause } from '../causes.ts';
import type { Draw } from './draw.ts';
import { inOrder } from './healthy-setup.ts';
import { between, betweenOnLogScale, logit } from './ranges.ts';
import type { Setup } from './setup.ts';

/** Share of the cassette, from the largest cog, that a small gap may trouble: from that cog alone, which the pulley touches first, to most of it. */
export const smallGapBreadth: readonly [number, number] = [0.1, 0.7];

/** Shapes of each fault; status and units as of `inOrder`. */
const outOfOrder = {
  /** A loose limit leaves at least so much room: then the chain can pass. */
  looseClear: 1.5,
  /** A wrong gap is off by at least so much, in units of the harmless error. */
  leastGap: 0.5,
  smallGap: { breadth: smallGapBreadth, missed: [0.02, 0.45], mostOtherWay: 0.6 },
  /** A large gap frees more of the chain on some cassettes at the small cogs, on others at the large, for each direction in its own way. */
  largeGap: { breadth: [-1, 0.5], missed: [0.01, 0.3], otherWay: [0.1, 1.5], otherSlope: [-1, 1.5] },
  /** Tilt over the whole cassette for each tolerance of the fault's size, and where its pivot may lie, logistic and cut off. */
  hanger: { tilt: 1.7, pivotSpread: 0.075, pivot: [-0.1, 1.1] },
  friction: {
    /** How much more the pulley sticks towards the small cogs, where the spring pulls least. A spring as stiff everywhere lets it stick alike everywhere: near that they lie densest, half of them below 0.43. */
    slope: [-0.1, 2],
    mostIn: 0.4,
    /** Share of the bikes on which shifts to larger cogs stay crisp; on the others up to so much of the trouble shows there too. */
    oneWay: 0.5,
    mostBothWays: 0.65,
    softer: 0.05,
    /** Parts of a healthy bike's margin and crank turns. */
    missedMargin: [0.1, 2],
    slowRevs: [0.05, 0.8],
  },
  /** How skips gather on the most used cogs, as a power of their use, and how many times more often all else goes wrong. */
  worn: { focus: [0, 1.5], background: [1, 2.5] },
} as const;

/** The limit stops sit on the derailleur: a hanger that bends carries them along, as far as it tilts more than before. */
function movedStops(healthy: Setup, tilt: number, pivot: number): Pick<Setup, 'lowClear' | 'highClear'> {
  return {
    lowClear: healthy.lowClear + tilt * (1 - pivot) - healthy.tilt * (1 - healthy.pivot),
    highClear: healthy.highClear + tilt * pivot - healthy.tilt * healthy.pivot,
  };
}

/** What each cause changes of a healthy bike. */
const changed: Readonly<Record<Cause, (healthy: Setup, draw: Draw) => Partial<Setup>>> = {
  'no-fault': () => ({}),
  'cable-tension-low': (_, { assumed }) => ({ offset: -assumed.faultSize }),
  'cable-tension-high': (_, { assumed }) => ({ offset: assumed.faultSize }),
  'low-limit-tight': (_, { assumed }) => ({ lowClear: -assumed.faultSize }),
  'low-limit-loose': (_, { assumed }) => ({ lowClear: outOfOrder.looseClear + assumed.faultSize }),
  'high-limit-tight': (_, { assumed }) => ({ highClear: -assumed.faultSize }),
  'high-limit-loose': (_, { assumed }) => ({ highClear: outOfOrder.looseClear + assumed.faultSize }),
  'pulley-gap-small': (_, { assumed, shape }) => ({
    gap: -outOfOrder.leastGap - assumed.faultSize,
    gapBreadth: between(outOfOrder.smallGap.breadth, shape.shape),
    gapMissed: between(outOfOrder.smallGap.missed, shape.side),
    gapOtherWay: outOfOrder.smallGap.mostOtherWay * shape.share ** 2,
    gapTurnByTurn: shape.slope,
  }),
  'pulley-gap-large': (_, { assumed, shape }) => ({
    gap: outOfOrder.leastGap + assumed.faultSize,
    gapMissed: between(outOfOrder.largeGap.missed, shape.side),
    gapOtherWay: betweenOnLogScale(outOfOrder.largeGap.otherWay, shape.share),
    gapBreadth: between(outOfOrder.largeGap.breadth, shape.shape),
    gapOtherSlope: between(outOfOrder.largeGap.otherSlope, shape.slope),
  }),
  'hanger-bent': (healthy, { assumed, shape }) => {
    const { hanger } = outOfOrder;
    const tilt = (shape.side < 0.5 ? -1 : 1) * hanger.tilt * assumed.faultSize;
    const [least, most] = hanger.pivot;
    const pivot = Math.min(most, Math.max(least, inOrder.pivot + hanger.pivotSpread * logit(shape.shape)));
    return { offset: 0, tilt, pivot, ...movedStops(healthy, tilt, pivot) };
  },
  // what sticks does not creep on: shifts are lost rather than late, and those that come through are hardly slowed
  'cable-friction': (healthy, { assumed, shape }) => {
    const { friction } = outOfOrder;
    const frictionSlope = between(friction.slope, shape.slope ** 2);
    return {
      frictionOut: assumed.faultSize / (1 + Math.max(0, frictionSlope)),
      frictionSlope,
      frictionIn: assumed.faultSize * friction.mostIn * shape.side ** 2,
      frictionBothWays:
        friction.mostBothWays * Math.max(0, (shape.share - friction.oneWay) / (1 - friction.oneWay)) ** 1.5,
      softness: healthy.softness + friction.softer * assumed.faultSize,
      missedMargin: healthy.missedMargin * betweenOnLogScale(friction.missedMargin, shape.shape),
      slowRevs: healthy.slowRevs * between(friction.slowRevs, shape.shape),
    };
  },
  'worn-drivetrain': (healthy, { assumed, shape }) => {
    const worse = between(outOfOrder.worn.background, shape.share);
    return {
      skipPerS: assumed.wornSkipPerHour / 3600,
      skipFocus: between(outOfOrder.worn.focus, shape.shape),
      backgroundIn: Math.min(inOrder.mostBackground, healthy.backgroundIn * worse),
      backgroundOut: Math.min(inOrder.mostBackground, healthy.backgroundOut * worse),
    };
  },
};

/** The same bike with one cause's parameter set wrong. */
export function faultySetup(cause: Cause, draw: Draw, healthy: Setup): Setup {
  return { ...healthy, ...changed[cause](healthy, draw) };
}

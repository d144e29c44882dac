import type { Adjustment } from '../adjustments/adjustment.ts';
import { LOOSE_LOSES } from '../adjustments/limit-holds.ts';
import { barrelTravelMm } from '../drivetrain/indexing.ts';
import type { Cause } from './causes.ts';

/*
 * What the diagnosis takes for granted about bikes and riders, with plausible ranges.
 * Status of every number here: assumption of ours; common practice in the trade, no source. Nobody has measured these in
 * public. Those in `assumptions` are wide on purpose, none was fitted to our own simulator, and `sensitivity.ts` moves each through its
 * range. That of `backgroundRate` reaches from what real rides show (one shift of 1,510 looked late to who judged three good rides by hand) to twice
 * the trouble that simulated rides in order show (README); of three ranges the middle one was taken, by verdicts on bikes of another simulator and on
 * bikes in order with trouble put in. The prior of `no-fault` and the weights of the evidence further down were chosen among round numbers by what they did to
 * the verdicts on simulated bikes, healthy ones above all.
 */

/** One thing taken for granted. */
export interface Assumption {
  /** In words, as an undecided verdict lists what it hangs on (`undecided.becauseOf`). */
  readonly meaning: string;
  /** 95 % of the knowledge lies between `low` and `high`; it is spread evenly on a log scale about their geometric mean. */
  readonly low: number;
  readonly high: number;
}

/**
 * How far one click of the barrel adjuster moves the guide pulley, mm: the rise of its thread over the clicks a turn, times the shift ratio
 * (`barrelTravelMm`). Published ratios lie between 1.1 and 1.7. Clicks a turn nobody has published: about 4 to 9 is the assumption,
 * with the ends so chosen that a click moves the pulley 0.10 to 0.35 mm.
 */
const SHIFT_RATIO = { low: 1.1, high: 1.7 };
const CLICKS_A_TURN = { low: 3.886, high: 8.8 };
const clickMm = {
  low: barrelTravelMm(1 / CLICKS_A_TURN.high, SHIFT_RATIO.low),
  high: barrelTravelMm(1 / CLICKS_A_TURN.low, SHIFT_RATIO.high),
};

/** What is taken for granted of bikes and riders, each with its range. */
export const assumptions = {
  toleranceShare: { meaning: 'how far the guide pulley may stand off before shifts suffer', low: 0.1, high: 0.42 }, // of a cog pitch; at half of it the chain lies midway
  softness: { meaning: 'how sharply shifting fails once the guide pulley stands off', low: 0.1, high: 0.4 }, // in tolerances
  loadEffect: { meaning: 'how much hard pedalling hinders a shift', low: 0.08, high: 1.2 }, // log odds for a step of torque
  backgroundRate: { meaning: 'how many late shifts a healthy bike shows', low: 0.001, high: 0.01 },
  directionBias: { meaning: 'how unlike the two directions are on a healthy bike', low: 0.5, high: 2 }, // ratio of rates
  missedMargin: { meaning: 'how much further off a late shift becomes a missed one', low: 0.25, high: 4 }, // in tolerances
  overshootMargin: { meaning: 'how far off the chain runs past a cog', low: 0.7, high: 6 }, // in tolerances, beyond tolerance
  slowRevs: { meaning: 'how many more turns of the crank a badly set shift takes', low: 0.05, high: 1.2 },
  lateSeen: { meaning: 'how many of the late shifts a log shows as late', low: 0.12, high: 1.8 }, // share; over 1 counts as 1
  ghostPerHour: { meaning: 'how often a badly set bike shifts by itself', low: 0.6, high: 60 },
  falseGhostPerHour: { meaning: 'how often the log fakes an unasked shift', low: 0.01, high: 0.6 },
  falseSkipPerHour: { meaning: 'how often the log fakes a skip', low: 0.001, high: 0.15 },
  falseDropPerShift: { meaning: 'how often the log fakes a dropped chain', low: 0.000005, high: 0.0005 },
  clickMm: { meaning: 'how far one click moves the guide pulley', ...clickMm },
  stepMm: { meaning: 'how far one electronic step moves the guide pulley', low: 0.04, high: 0.25 },
  limitTurnMm: { meaning: 'how far one turn of a limit screw moves its stop', low: 0.4, high: 2 },
  gapTurn: { meaning: 'how much one turn changes the pulley gap', low: 0.25, high: 2.5 }, // in units of the harmless gap error
  healthyOffset: { meaning: 'how well a healthy bike is centred', low: 0.06, high: 0.45 }, // in tolerances
  faultSize: { meaning: 'how large a fault is when it comes to be looked at', low: 0.75, high: 4 }, // in tolerances
  gapTrouble: { meaning: 'how much trouble a wrong pulley gap makes', low: 0.1, high: 0.95 }, // share of shifts
  looseDropPerShift: { meaning: 'how often a loose limit loses the chain', ...LOOSE_LOSES },
  wornSkipPerHour: { meaning: 'how often worn cogs let the chain skip', low: 0.8, high: 90 },
} as const satisfies Record<string, Assumption>;

/** Name of one of `assumptions`. */
export type AssumptionName = keyof typeof assumptions;

/** Prior weights of the causes; guides disagree on which fault is commonest, so they are weak. They are scaled to sum to 1. */
export const causePriors: Record<'cable' | 'electronic', Readonly<Record<Cause, number>>> = {
  cable: {
    'no-fault': 0.2,
    'cable-tension-low': 0.11,
    'cable-tension-high': 0.08,
    'low-limit-tight': 0.05,
    'low-limit-loose': 0.05,
    'high-limit-tight': 0.05,
    'high-limit-loose': 0.05,
    'pulley-gap-small': 0.05,
    'pulley-gap-large': 0.05,
    'hanger-bent': 0.09,
    'cable-friction': 0.08,
    'worn-drivetrain': 0.06,
  },
  electronic: {
    'no-fault': 0.2,
    'cable-tension-low': 0.1,
    'cable-tension-high': 0.1,
    'low-limit-tight': 0.05,
    'low-limit-loose': 0.05,
    'high-limit-tight': 0.05,
    'high-limit-loose': 0.05,
    'pulley-gap-small': 0.05,
    'pulley-gap-large': 0.05,
    'hanger-bent': 0.12,
    'cable-friction': 0.001,
    'worn-drivetrain': 0.06,
  },
};

/** How a fault begins, by cause: from the first ride on, at one moment between or within rides, or growing. Sums to 1. */
export const onsetPriors: Readonly<Record<Cause, { steady: number; sudden: number; gradual: number }>> = {
  'no-fault': { steady: 1, sudden: 0, gradual: 0 },
  'cable-tension-low': { steady: 0.7, sudden: 0.12, gradual: 0.18 },
  'cable-tension-high': { steady: 0.75, sudden: 0.17, gradual: 0.08 },
  'low-limit-tight': { steady: 0.85, sudden: 0.13, gradual: 0.02 },
  'low-limit-loose': { steady: 0.85, sudden: 0.13, gradual: 0.02 },
  'high-limit-tight': { steady: 0.85, sudden: 0.13, gradual: 0.02 },
  'high-limit-loose': { steady: 0.85, sudden: 0.13, gradual: 0.02 },
  'pulley-gap-small': { steady: 0.85, sudden: 0.13, gradual: 0.02 },
  'pulley-gap-large': { steady: 0.85, sudden: 0.13, gradual: 0.02 },
  'hanger-bent': { steady: 0.55, sudden: 0.43, gradual: 0.02 },
  'cable-friction': { steady: 0.65, sudden: 0.05, gradual: 0.3 },
  'worn-drivetrain': { steady: 0.7, sudden: 0.03, gradual: 0.27 },
};

/** Share of a repair's cases in which it truly cures its own cause, and in which it cures a neighbour by the way. */
export const repairCures = { own: 0.9, byTheWay: 0.5 } as const;

/**
 * Share of the looks that find a part right though it is at fault, by what was looked at. A stop stands still and is plain to see on a stand;
 * a gap is measured, but seldom at sag; a hanger is often looked at without a gauge; indexing that runs well on a stand may fail
 * under load, and what sticks in a cable hides in its housing; a chain that measures well says little of the cogs, nor they of the chain. Half or
 * twice as many are plausible.
 */
export const missedByLook: Readonly<Record<Adjustment['parameter'], number>> = {
  'low-limit': 0.1,
  'high-limit': 0.1,
  'pulley-gap': 0.2,
  hanger: 0.25,
  'cable-tension': 0.4,
  'index-offset': 0.4,
  'cable-and-housing': 0.4,
  chain: 0.5,
  cassette: 0.5,
  wheel: 1,
};

/** Evidence beside the model: how much of each observation is believed. */
export const evidenceWeights = {
  /**
   * How far the records about a shift are trusted, as a power of what they say: those about one shift share errors with those about
   * the next (the sensors' lag, a cog that takes a little longer by its nature).
   */
  trusted: 0.9,
  /** No shift's records speak against an outcome by more than this: sensors err in ways that the judgement does not know of. */
  mostAgainst: 200,
  /**
   * Crank turns that a shift takes on a bike in order: the chain climbs the cogs one after another, so over several, or over the whole
   * cassette after a row of presses while coasting, it may be late with nothing amiss. Median for one cog, what each further one adds,
   * spread of the logarithm; and the mean turns by which a shift that a fault holds back is later than 1.5.
   */
  soundRevs: { one: 0.55, furtherCog: 0.14, logSpread: 0.35, heldBack: 2 },
  /** A shift weighed by the rider's reaction alone (no cadence, or a speed that shows no gears) against one that was measured. */
  weakShift: 0.15,
  /** Shifts onto one cog in one direction after which more of the same add little: they share tracks, hands and day. */
  shiftsThatCount: 200,
  /** Share of cogs and directions that behave like no cause at all (a worn cog, a bent tooth, a bad stretch of track). */
  strayCell: 0.02,
  /** Share of bikes on which one cog that is not at an end fails by itself, onto it and past it, both ways. */
  strayCog: 0.02,
  /**
   * How unlike healthy shifts are in crank turns: between the two directions, from one end of the cassette to the other
   * (and how far that differs by direction), onto the two end cogs, where the stops are near, and from cog to cog;
   * standard deviations.
   */
  healthyRevs: { direction: 0.07, slope: 0.3, slopeByDirection: 0.08, end: 0.2, cog: 0.04 },
  /** Degrees of freedom of the crank turns' heavy-tailed distribution. */
  revsFreedom: 5,
  /** Share of bikes on which the whole model is wrong: the verdict never gets surer than this allows. */
  modelWrong: 0.02,
  /** Power of the likelihood by which one cause is weighed against another: what misled once misleads again. */
  verdict: 0.7,
  /** How often a chain that was last seen on the outer cogs of a ride without gear records left past that end, and not at the chainring. */
  sideWithoutRecords: 0.85,
  /** Seconds about a dropped chain in which shifts are not counted: they belong to the drop. */
  dropShadowS: 10,
} as const;

/** Rider's part: prior probability that hard pedalling by itself makes trouble, and how much at the highest torque. */
export const riderPart = { prior: 0.1, low: 0.04, high: 0.9 } as const;

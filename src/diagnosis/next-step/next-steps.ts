import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import { limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { toldByHand } from '../told-by-hand.ts';
import type { Caution } from './caution.ts';
import { hangerFirst } from './hanger-first.ts';
import { stepCautions } from './step-cautions.ts';
import type { Fault } from './suggestion-facts.ts';

/** What to do about a cause. Order, directions and amounts: common practice in the trade, no source. */
export interface NextStep {
  readonly parameter: string;
  readonly action: string;
  readonly start: string;
  readonly cautions: readonly Caution[];
  /** The ends whose cog `start` says to keep off. */
  readonly keepsOff?: readonly CassetteEnd[];
}

/** What was seen to before a step, or is looked at before it: the step does not ask for it. */
export interface SeenBefore {
  readonly hanger?: boolean;
  readonly cable?: boolean;
  /** Whether the low limit screw is logged as turned: see `hangerFirst`. */
  readonly lowLimitTurned?: boolean;
}

/** A look that comes before an action; null where it was seen to. */
type LookBefore = (seen: SeenBefore) => string | null;

/** A step whose action, in lower case then, may come after a look. */
interface PlannedStep extends NextStep {
  readonly lookBefore?: LookBefore;
}

/** Order of work: damage and hanger first, cable before indexing, limits after it, the gap last. */
export const workOrder: readonly Cause[] = [
  'hanger-bent',
  'worn-drivetrain',
  'cable-friction',
  'cable-tension-low',
  'cable-tension-high',
  'low-limit-loose',
  'high-limit-loose',
  'low-limit-tight',
  'high-limit-tight',
  'pulley-gap-small',
  'pulley-gap-large',
  'no-fault',
];

/** Whether a cause is mended by aligning or replacing a part, before anything is turned. */
export const isMendedByParts = (cause: Cause): boolean =>
  cause === 'hanger-bent' || cause === 'cable-friction' || cause === 'worn-drivetrain';

/** Cautions that mean nothing to electronic actuation. */
const cableCautions: readonly Caution[] = [stepCautions.highLimitTension, stepCautions.settles];
/** The trade's rule: one click at a time, as many as it takes; how many before a ride is said beside it. */
const untilAlike = 'shift to and fro, then one more, until both directions run alike.';
/** Cable and housing come before the indexing, unless they were seen to. */
const cableFirst: LookBefore = ({ cable }) => (cable ? null : 'Look over cable and housing,');
/** The hanger comes before a limit screw that seems to have let the chain past, unless it was seen to. */
const hangerBefore =
  (end: CassetteEnd): LookBefore =>
  ({ hanger, lowLimitTurned = false }) =>
    hanger ? null : hangerFirst(end, lowLimitTurned);
/** A limit past which a chain went is looked at, and its screw turned only as the look shows: a turn that was not needed makes it stop short. */
export const lookThenTurnIn = (end: CassetteEnd, electronic: boolean): string =>
  `${toldByHand(limitAt[end].loose, electronic)} If it goes further, turn the ${limitAt[end].screw} in (clockwise) until it stops there.`;
const looseAction = (end: CassetteEnd, electronic: boolean): string =>
  `see on a stand how far the limit lets the derailleur go. ${lookThenTurnIn(end, electronic)} If not, leave the screw as it is.`;
/** How a derailleur is brought to its low limit, to stand in a sentence. The motor holds an electronic one, so it is never pushed. */
export const moveInboard = (electronic: boolean): string =>
  electronic ? 'shift onto the largest cog, the cranks turned slowly,' : 'push the derailleur inboard by hand';
/** A limit that may keep the chain from its cog is looked at before it is opened. `reached`: how the derailleur is brought there. */
const stopsShort = (reached: string): string =>
  `On a stand, ${reached} and look. Only where the guide pulley stops short, an eighth of a turn anticlockwise, then look again.`;
/** How a pulley gap is set, whichever way it is out. */
export const MEASURE_GAP =
  "Measure the gap between guide pulley and cogs with the chain on the second largest cog, and set it to the maker's figure.";
/** The rides take a gap that is out one way for the other easily: what is measured goes before them. */
const measured = (other: string, then: string): string =>
  `Where it measures right, leave it and log that look; where it measures ${other}, ${then}: the measure goes before the rides.`;
const gapStart =
  'Measure before anything is turned. Wide cassettes commonly ask for about 3 mm from the guide pulley to the tooth tips of the largest cog; the maker of yours may ask for another gap, which goes before this. Then half a turn at a time, and measure again.';
const cableSteps: Readonly<Record<Fault, PlannedStep>> = {
  'cable-tension-low': {
    parameter: 'cable-tension',
    lookBefore: cableFirst,
    action: 'add cable tension: turn the barrel adjuster anticlockwise, one click at a time.',
    start: `With cable and housing in order, on a stand: one click anticlockwise (a quarter turn where it does not click), ${untilAlike}`,
    cautions: [stepCautions.unscrewed, stepCautions.settles],
  },
  'cable-tension-high': {
    parameter: 'cable-tension',
    lookBefore: cableFirst,
    action: 'take off cable tension: turn the barrel adjuster clockwise, one click at a time.',
    start: `With cable and housing in order, on a stand: one click clockwise (a quarter turn where it does not click), ${untilAlike}`,
    cautions: [stepCautions.screwedIn],
  },
  'low-limit-tight': {
    parameter: 'low-limit',
    action:
      'Turn the low limit screw out (anticlockwise) until the guide pulley can stand straight below the largest cog, and no further.',
    start: stopsShort(moveInboard(false)),
    cautions: [stepCautions.lowLimitTooOpen, stepCautions.indexAgain],
  },
  'low-limit-loose': {
    parameter: 'low-limit',
    lookBefore: hangerBefore('past-largest'),
    action: looseAction('past-largest', false),
    start:
      'With the hanger in order, look on a stand. Only where the guide pulley goes too far, a quarter of a turn clockwise, then look again; keep off the largest cog until it stops there.',
    cautions: [stepCautions.intoSpokes, stepCautions.indexAgain],
    keepsOff: ['past-largest'],
  },
  'high-limit-tight': {
    parameter: 'high-limit',
    action:
      'Turn the high limit screw out (anticlockwise) until the guide pulley can stand a hair outside the smallest cog.',
    start: stopsShort('shift onto the smallest cog'),
    cautions: [stepCautions.highLimitTension, stepCautions.highLimitTooOpen, stepCautions.indexAgain],
  },
  'high-limit-loose': {
    parameter: 'high-limit',
    lookBefore: hangerBefore('past-smallest'),
    action: looseAction('past-smallest', false),
    start:
      'Look on a stand. Only where the guide pulley goes too far, a quarter of a turn clockwise, then look again; keep off the smallest cog until it stops there.',
    cautions: [stepCautions.intoFrame, stepCautions.highLimitTension, stepCautions.indexAgain],
    keepsOff: ['past-smallest'],
  },
  'pulley-gap-small': {
    parameter: 'pulley-gap',
    action: `${MEASURE_GAP} By these rides it is too small: turn the B-screw clockwise to widen it, but only where it measures so. ${measured('too large', 'narrow it, anticlockwise')}`,
    start: gapStart,
    cautions: [stepCautions.gapAtSag, stepCautions.indexAgain],
  },
  'pulley-gap-large': {
    parameter: 'pulley-gap',
    action: `${MEASURE_GAP} By these rides it is too large: turn the B-screw anticlockwise to narrow it, but only where it measures so. ${measured('too small', 'widen it, clockwise')}`,
    start: gapStart,
    cautions: [stepCautions.gapAtSag, stepCautions.indexAgain],
  },
  'hanger-bent': {
    parameter: 'hanger',
    action:
      'Look for damage to hanger, derailleur and frame, then have the hanger checked with a gauge and aligned before anything else is turned: no other adjustment cures it.',
    start: 'Gauge first.',
    cautions: [stepCautions.crackedHanger, stepCautions.bentHanger, stepCautions.indexAgain],
  },
  'cable-friction': {
    parameter: 'cable-and-housing',
    action: 'Clean or replace cable and housing before any indexing.',
    start: 'Look for frays, kinks and rust, above all at the last bend of housing.',
    cautions: [stepCautions.frayedCable, stepCautions.settles, stepCautions.indexAgain],
  },
  'worn-drivetrain': {
    parameter: 'chain',
    action:
      'Measure the chain with a chain checker; replace it at the wear its maker names, and the most used cogs with it if a new chain skips on them. Look for a stiff link too.',
    start: 'Measure before buying anything.',
    cautions: [stepCautions.skipsUnderLoad],
  },
};

const electronicSteps: Partial<Record<Fault, PlannedStep>> = {
  'cable-tension-low': {
    parameter: 'index-offset',
    action: 'Move the index offset inboard, one step at a time.',
    start: `On a stand: one step inboard, ${untilAlike}`,
    cautions: [stepCautions.offsetEnds],
  },
  'cable-tension-high': {
    parameter: 'index-offset',
    action: 'Move the index offset outboard, one step at a time.',
    start: `On a stand: one step outboard, ${untilAlike}`,
    cautions: [stepCautions.offsetEnds],
  },
  'low-limit-tight': {
    ...cableSteps['low-limit-tight'],
    start: stopsShort(moveInboard(true)),
  },
  'low-limit-loose': { ...cableSteps['low-limit-loose'], action: looseAction('past-largest', true) },
  'high-limit-loose': { ...cableSteps['high-limit-loose'], action: looseAction('past-smallest', true) },
  'cable-friction': {
    parameter: 'none',
    action: 'Clean the derailleur and its pivots, then ride again.',
    start: 'Clean it before anything is turned.',
    cautions: [],
  },
};

/** The step for a cause. Electronic actuation has index offset steps and no cable to look over. */
export function nextStep(cause: Fault, electronic: boolean, seen: SeenBefore = {}): NextStep {
  const { lookBefore, action, ...step } = (electronic ? electronicSteps[cause] : undefined) ?? cableSteps[cause];
  const look = lookBefore?.(seen) ?? null;
  return {
    ...step,
    action: look === null ? upperFirst(action) : `${look} then ${action}`,
    cautions: electronic ? step.cautions.filter((caution) => !cableCautions.includes(caution)) : step.cautions,
  };
}

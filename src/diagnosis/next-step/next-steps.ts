import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import { limitAt } from '../cassette-ends.ts';
import type { Cause } from '../causes.ts';
import { toldByHand } from '../told-by-hand.ts';

/** What to do about a cause. Order, directions and amounts: common practice in the trade, no source. */
export interface NextStep {
  readonly parameter: string;
  readonly action: string;
  readonly start: string;
  readonly cautions: readonly string[];
  /** The ends whose cog `start` says to keep off. */
  readonly keepsOff?: readonly CassetteEnd[];
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

const LOOK_OVER_CABLE = 'Look over cable and housing, then ';
const highLimitTension =
  'Release cable tension before setting the high limit, count the clicks, and put them back afterwards.';
/** What follows new cable and housing. */
export const settles = 'New cable and housing settle in the first rides and ask for tension again.';
/** Cautions that mean nothing to electronic actuation. */
const cableCautions: readonly string[] = [highLimitTension, settles];
const unscrewed =
  'Anticlockwise unscrews the barrel adjuster: leave it a full turn of thread, do not unscrew it to its end. Where it comes near, screw it in again and draw the cable tighter at its clamp, on the smallest cog.';
const screwedIn =
  'Clockwise screws the barrel adjuster in: where it is fully in, do not force it. Give the cable slack at its clamp instead, on the smallest cog.';
const offsetEnds =
  'Where the range of the setting ends first, stop: see then whether the hanger is bent, the derailleur is mounted straight and firmly, and anything is worn.';
/** The trade's rule: one click at a time, as many as it takes; how many before a ride is said beside it. */
const untilAlike = 'shift to and fro, then one more, until both directions run alike.';
/**
 * Said before a limit screw that seems to have let the chain past is turned. A hanger bent inboard lets it past the largest cog just as a loose limit
 * does, and the screw would only hide the bend: there a look will not do.
 */
export const hangerFirstAt: Readonly<Record<CassetteEnd, string>> = {
  'past-largest': 'Have the hanger gauged, above all if the bike fell or nobody touched the limit;',
  'past-smallest': 'Look whether the hanger is bent;',
};
/** A step where the hanger was looked at before it. */
export const hangerSeenTo = (step: string): string =>
  Object.values(hangerFirstAt).reduce((said, look) => said.replace(`${look} then see`, 'See'), step);
/** A step on a bike whose low limit screw is logged as turned. */
export const limitWasTouched = (step: string): string => step.replace(' or nobody touched the limit', '');
/** A step where cable and housing were looked at or replaced before it. */
export const cableSeenTo = (step: string): string => upperFirst(step.replace(LOOK_OVER_CABLE, ''));
/** A limit past which a chain went is looked at, and its screw turned only as the look shows: a turn that was not needed makes it stop short. */
export const lookThenTurnIn = (end: CassetteEnd, electronic: boolean): string =>
  `${toldByHand(limitAt[end].loose, electronic)} If it goes further, turn the ${limitAt[end].screw} in (clockwise) until it stops there.`;
const looseAction = (end: CassetteEnd, electronic: boolean): string =>
  `${hangerFirstAt[end]} then see on a stand how far the limit lets the derailleur go. ${lookThenTurnIn(end, electronic)} If not, leave the screw as it is.`;
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
/** What follows work that moves the guide pulley. */
export const indexAgain = 'Check the indexing again afterwards.';
/** Caution for a chain that went past the largest cog. */
export const intoSpokes =
  'A chain that went into the spokes: stop, look for damage to spokes and derailleur, and do not ride on until they are sound.';
/** Caution for a chain that went past the smallest cog. */
export const intoFrame =
  'A chain that went into the frame: stop, look for damage to frame and chain, and do not ride on until they are sound.';
/** Caution for a chain that went past both ends: what is done about it is the same. */
export const intoEither =
  'A chain that went into the spokes or the frame: stop, look for damage to spokes, derailleur, frame and chain, and do not ride on until they are sound.';

/** Caution for a chain that slips over worn teeth. */
export const skipsUnderLoad = 'Do not stand on the pedals or sprint on a chain that skips.';

/** Begins a caution that keeps off an end cog past which the chain was lost. */
export const KEEP_OFF = 'Keep off the ';

/** Caution for a hanger that may be bent: it keeps off the largest cog. */
const BENT_HANGER = 'A derailleur on a bent hanger can reach the spokes: keep off the largest cog until it is checked.';

/** The same of one that was aligned or found right: what is left is to see that it is. */
const HANGER_TRIED =
  'A derailleur on a bent hanger can reach the spokes: keep off the largest cog until it was tried on a stand and stays clear of them there.';
/** Whether a caution keeps off the largest cog for the hanger's sake. */
export const keepsOffForHanger = (caution: string): boolean => caution === BENT_HANGER || caution === HANGER_TRIED;
/** The cautions of a step that does not ask for the hanger, where that was seen to before it. */
export const hangerTried = (cautions: readonly string[]): readonly string[] =>
  cautions.map((caution) => (caution === BENT_HANGER ? HANGER_TRIED : caution));

/** Caution for a chain that came off elsewhere, or nobody knows where. */
export const cameOff =
  'A chain that came off: before riding on look over chain, chainring, chain guide and the ends of the cassette for damage and for what let it off.';

const cableSteps: Readonly<Record<Exclude<Cause, 'no-fault'>, NextStep>> = {
  'cable-tension-low': {
    parameter: 'cable-tension',
    action: `${LOOK_OVER_CABLE}add cable tension: turn the barrel adjuster anticlockwise, one click at a time.`,
    start: `With cable and housing in order, on a stand: one click anticlockwise (a quarter turn where it does not click), ${untilAlike}`,
    cautions: [unscrewed, settles],
  },
  'cable-tension-high': {
    parameter: 'cable-tension',
    action: `${LOOK_OVER_CABLE}take off cable tension: turn the barrel adjuster clockwise, one click at a time.`,
    start: `With cable and housing in order, on a stand: one click clockwise (a quarter turn where it does not click), ${untilAlike}`,
    cautions: [screwedIn],
  },
  'low-limit-tight': {
    parameter: 'low-limit',
    action:
      'Turn the low limit screw out (anticlockwise) until the guide pulley can stand straight below the largest cog, and no further.',
    start: stopsShort(moveInboard(false)),
    cautions: ['A low limit opened too far lets the chain into the spokes.', indexAgain],
  },
  'low-limit-loose': {
    parameter: 'low-limit',
    action: looseAction('past-largest', false),
    start:
      'With the hanger in order, look on a stand. Only where the guide pulley goes too far, a quarter of a turn clockwise, then look again; keep off the largest cog until it stops there.',
    cautions: [intoSpokes, indexAgain],
    keepsOff: ['past-largest'],
  },
  'high-limit-tight': {
    parameter: 'high-limit',
    action:
      'Turn the high limit screw out (anticlockwise) until the guide pulley can stand a hair outside the smallest cog.',
    start: stopsShort('shift onto the smallest cog'),
    cautions: [highLimitTension, 'A high limit opened too far lets the chain into the frame.', indexAgain],
  },
  'high-limit-loose': {
    parameter: 'high-limit',
    action: looseAction('past-smallest', false),
    start:
      'Look on a stand. Only where the guide pulley goes too far, a quarter of a turn clockwise, then look again; keep off the smallest cog until it stops there.',
    cautions: [intoFrame, highLimitTension, indexAgain],
    keepsOff: ['past-smallest'],
  },
  'pulley-gap-small': {
    parameter: 'pulley-gap',
    action: `${MEASURE_GAP} By these rides it is too small: turn the B-screw clockwise to widen it, but only where it measures so. ${measured('too large', 'narrow it, anticlockwise')}`,
    start: gapStart,
    cautions: ['On a suspended frame set the gap with the rider on the bike, at sag.', indexAgain],
  },
  'pulley-gap-large': {
    parameter: 'pulley-gap',
    action: `${MEASURE_GAP} By these rides it is too large: turn the B-screw anticlockwise to narrow it, but only where it measures so. ${measured('too small', 'widen it, clockwise')}`,
    start: gapStart,
    cautions: ['On a suspended frame set the gap with the rider on the bike, at sag.', indexAgain],
  },
  'hanger-bent': {
    parameter: 'hanger',
    action:
      'Look for damage to hanger, derailleur and frame, then have the hanger checked with a gauge and aligned before anything else is turned: no other adjustment cures it.',
    start: 'Gauge first.',
    cautions: [
      'A cracked hanger, or one that was bent back before, is replaced and not bent.',
      BENT_HANGER,
      indexAgain,
    ],
  },
  'cable-friction': {
    parameter: 'cable-and-housing',
    action: 'Clean or replace cable and housing before any indexing.',
    start: 'Look for frays, kinks and rust, above all at the last bend of housing.',
    cautions: ['A frayed cable is replaced at once.', settles, indexAgain],
  },
  'worn-drivetrain': {
    parameter: 'chain',
    action:
      'Measure the chain with a chain checker; replace it at the wear its maker names, and the most used cogs with it if a new chain skips on them. Look for a stiff link too.',
    start: 'Measure before buying anything.',
    cautions: [skipsUnderLoad],
  },
};

const electronicSteps: Partial<Record<Cause, NextStep>> = {
  'cable-tension-low': {
    parameter: 'index-offset',
    action: 'Move the index offset inboard, one step at a time.',
    start: `On a stand: one step inboard, ${untilAlike}`,
    cautions: [offsetEnds],
  },
  'cable-tension-high': {
    parameter: 'index-offset',
    action: 'Move the index offset outboard, one step at a time.',
    start: `On a stand: one step outboard, ${untilAlike}`,
    cautions: [offsetEnds],
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
export function nextStep(cause: Exclude<Cause, 'no-fault'>, electronic: boolean): NextStep {
  const step = (electronic ? electronicSteps[cause] : undefined) ?? cableSteps[cause];
  if (!electronic) return step;
  return { ...step, cautions: step.cautions.filter((caution) => !cableCautions.includes(caution)) };
}

/** Cautions of whatever is done by hand. */
export const cautionsOfWork: readonly string[] = [
  'Adjust on a stand, or on smooth ground away from traffic.',
  'Keep fingers out of a turning drivetrain.',
];

/** Cautions that go with every suggestion. */
export const generalCautions: readonly string[] = [
  ...cautionsOfWork,
  "The maker's manual, local rules and a qualified mechanic come first.",
  'These are likelihoods from logs: nobody has looked at the bike.',
];

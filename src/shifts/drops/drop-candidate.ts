/**
 * What can be measured about a moment at which a chain may have come off, with the unit of the measure. `log-share`: natural logarithm of one
 * over the other; `times`: one over the other; `none`: there is nothing to measure, it is so or not, and the value is NaN.
 */
export const dropSignUnits = {
  /** What such a moment weighs before any sign: how seldom it is a lost chain. */
  beforehand: 'none',
  /** Cadence over that of the seconds before. */
  'legs-faster': 'log-share',
  /** After a halt there is no cadence before: the cadence over the fastest that the gear allows. */
  'legs-set-off-faster': 'log-share',
  /** Cadence over the one that the rider hardly ever exceeds. */
  'legs-past-usual': 'times',
  'legs-fast-for': 's',
  'records-below': 'records',
  /** Cadence over what the easiest gear in question allows at this speed; Infinity where the wheel stood. */
  'past-gear': 'log-share',
  /** Mean power from the fastest legs on. */
  'power-gone': 'W',
  'power-there': 'W',
  /** Odds of a lost chain by how often halts follow shifts onto this cog and onto others: see `haltOdds`. */
  'halts-so-often': 'odds',
  'halts-on-cog': 'shifts',
  'shifts-onto-cog': 'shifts',
  /** From the shift to the last turn of the legs before the halt. */
  'legs-stopped-after': 's',
  /** So long the legs turned on faster than any gear in question allows, beyond what a sensor may hold. */
  'turned-in-vain': 's',
  'halt-after': 's',
  /** Infinity: to the ride's end. */
  'halt-lasts': 's',
  /** So long no halt followed. */
  'no-halt': 's',
  /** Since an end cog was asked for. */
  'end-cog-asked': 's',
  /** Nothing was asked for lately; the derailleur stood on an end cog. The chain may not have come there yet, where the cranks stood still since. */
  'end-cog-held': 'none',
  /** From the last turn of the legs to when another cog was asked for while the bike stood, away from the end one. */
  'asked-off-standing': 's',
  /** Speed at which readings are taken that the sensors' own errors could make. */
  creeping: 'm/s',
  'cadence-leaps': 'none',
  'single-reading': 'none',
  /** So long the ratio lay at the cog that was asked for. */
  'cog-reached': 's',
  /** Hardest loss of speed in the seconds after. */
  braking: 'm/s²',
} as const;

/** Name of a sign. */
export type DropSign = keyof typeof dropSignUnits;

/** One measured sign, in the unit that `dropSignUnits` names. */
export interface MeasuredSign {
  readonly sign: DropSign;
  readonly value: number;
}

/** The way in which a candidate was looked for: it says what the signs weigh. */
export type DropPattern = 'low-ratio' | 'free-spin' | 'halt-at-largest' | 'halt-at-smallest' | 'stop-on-largest';

/** A moment at which a chain may have come off: record index, and all that was measured about it. Nothing is weighed yet. */
export interface DropCandidate {
  readonly pattern: DropPattern;
  readonly start: number;
  readonly signs: readonly MeasuredSign[];
}

import type { CassetteEnd } from '../../src/adjustments/end-cog-count.ts';
import type { SuggestionFacts } from '../../src/diagnosis/next-step/suggestion-facts.ts';
import type { BikeNow } from '../../src/diagnosis/now/bike-now.ts';
import type { LimitTrial } from '../../src/diagnosis/now/limit-trial.ts';
import type { Observed } from '../../src/diagnosis/observed.ts';

/** Shifts of which so many were late. */
export const count = (shifts: number, late: number) => ({ shifts, late, missed: 0, overshot: 0, trouble: late });
/** What was seen of a bike on which next to nothing goes wrong, unless told otherwise. */
export const seen = (changes: Partial<Observed> = {}): Observed => ({
  cassette: [11, 13, 15, 17, 20, 23, 26, 30, 34],
  all: count(600, 3),
  shifts: () => count(50, 3),
  cleanTurns: () => Number.NaN,
  watchesUnasked: true,
  ghosts: () => 0,
  climbedAfterLarger: 0,
  towardsCommand: 0,
  drops: () => 0,
  sureDrops: () => 0,
  promptHalts: () => ({ onto: { shifts: 0, halts: 0 }, elsewhere: { shifts: 0, halts: 0 } }),
  commandedOnto: () => 40,
  skips: () => 0,
  events: 0,
  pedallingHours: 3,
  pedallingShare: Array(9).fill(1 / 9),
  weakShifts: 0,
  ...changes,
});
const none = { asked: 0, shifts: 0, reached: 0, trouble: 0, lost: 0 };
const untried = (end: CassetteEnd): LimitTrial => ({ end, fromMs: null, before: none, since: none, holds: 1 });
/** A bike on which nothing was adjusted, unless told otherwise. */
export const now = (changes: Partial<BikeNow> = {}): BikeNow => ({
  cause: 'pulley-gap-small',
  fault: 'pulley-gap-small',
  setting: 'same',
  tooFar: null,
  stillThere: 1,
  pastTheMark: 0,
  since: { last: null, seen: seen(), lost: () => 0 },
  skipping: null,
  keepOff: new Set(),
  trials: { 'past-largest': untried('past-largest'), 'past-smallest': untried('past-smallest') },
  trial: null,
  whereLost: [],
  turnedSoFar: 0,
  ...changes,
});
/** What the next step hangs on: a guide pulley too close to the cogs, unless told otherwise. */
export const facts = (changes: Partial<SuggestionFacts> = {}): SuggestionFacts => ({
  ranked: [
    { cause: 'pulley-gap-small', probability: 0.9 },
    { cause: 'no-fault', probability: 0.1 },
  ],
  seen: seen(),
  drops: () => 0,
  undatedShifts: 0,
  ridesLeftOut: 0,
  undecided: null,
  unexplained: null,
  failsPlainly: null,
  onset: { kind: 'steady', at: null, rideBeforeAt: null, probability: 0.9 },
  rider: {
    probability: 0,
    troubleRateLowTorque: null,
    troubleRateHighTorque: null,
    goneWithSoftLegs: false,
    sentence: '',
  },
  clicks: { parameter: 'cable-tension', unit: 'clicks', mean: 0, low: -1, high: 1 },
  foundRight: [],
  seenTo: changes.foundRight ?? [],
  overtaken: [],
  comparisons: [],
  clicksFor: () => ({ parameter: 'cable-tension', unit: 'clicks', mean: 0, low: -1, high: 1 }),
  now: now(),
  wellSince: null,
  checkRide: { blocks: [], sentences: [], expectedBits: 0, ordinaryBits: 0 },
  electronic: false,
  ...changes,
});

import { openExpectation } from '../../src/shifts/outcomes/open-expectation.ts';
import type { Outcome, ShiftEvent } from '../../src/shifts/ride-events.ts';

/** A shift of which nothing is known but when, between which cogs (cassette indices) and with what outcome. */
export const madeShift = (timeS: number, fromCog: number, toCog: number, outcome: Outcome): ShiftEvent => ({
  timeS,
  lastTimeS: timeS,
  fromCog,
  toCog,
  cogsToCross: Math.abs(toCog - fromCog),
  direction: toCog > fromCog ? 'to-larger' : 'to-smaller',
  outcome,
  crankRevs: null,
  confidence: 1,
  probability: { clean: 0, late: 0, missed: 0, overshot: 0 },
  expected: openExpectation,
  torqueNm: Number.NaN,
  cadenceRpm: Number.NaN,
  unjudgedBecause: null,
  weak: false,
});

import type { OutcomeProbability, ShiftEvent, UnjudgedReason } from './ride-events.ts';

const unknown: OutcomeProbability = { clean: 0, late: 0, missed: 0, overshot: 0 };

/** The part of a shift that was not judged which all such shifts share. */
export const unjudged = (
  because: UnjudgedReason,
): Pick<ShiftEvent, 'outcome' | 'unjudgedBecause' | 'crankRevs' | 'confidence' | 'probability' | 'expected'> => ({
  outcome: 'unjudged',
  unjudgedBecause: because,
  crankRevs: null,
  confidence: 1,
  probability: unknown,
  expected: unknown,
});

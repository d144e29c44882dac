import type { ShiftEvent } from '../../shifts/ride-events.ts';
import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { inDropsShadow } from '../evidence/untold-halts.ts';

/** The shifts that the causes were weighed by, with the moment of each (Unix milliseconds); without those that only the rider's answer tells of, or a lost chain spoiled. */
export const weighedShifts = ({ rides }: RidingEvidence): { readonly atMs: number; readonly shift: ShiftEvent }[] =>
  rides.flatMap(({ startMs, events }) =>
    events.shifts
      .filter(({ outcome, weak, cogsToCross }) => outcome !== 'unjudged' && !weak && cogsToCross !== 0)
      .filter(({ timeS }) => !inDropsShadow(events, timeS))
      .map((shift) => ({ atMs: startMs + shift.timeS * 1000, shift })),
  );

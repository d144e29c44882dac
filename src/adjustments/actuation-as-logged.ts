import type { Bike } from '../drivetrain/bike.ts';
import type { Warning } from '../errors/warning.ts';
import { actuationGuessed } from '../gear-trace/guess/guess-drivetrain.ts';
import { actuationOf } from './doubtful-adjustment.ts';

/** A bike that was guessed, with what is said of the guess. */
interface GuessedWithNotes {
  readonly bike: Bike;
  readonly notes: readonly Warning[];
}

/**
 * A guessed bike with the actuation that the log of its adjustments tells, and a note that says so: what its rider turned is better known than
 * what the rides let guess. As it was where the log tells none.
 *
 * @param adjustments the earliest first
 */
export function actuationAsLogged(
  { bike, notes }: GuessedWithNotes,
  adjustments: readonly { readonly parameter: string }[],
): GuessedWithNotes {
  const actuation = actuationOf(adjustments);
  if (!actuation) return { bike, notes };
  return {
    bike: { ...bike, actuation },
    notes: [
      ...notes.filter(({ code }) => code !== actuationGuessed),
      { code: actuationGuessed, message: `The actuation is taken from the logged adjustments: ${actuation}.` },
    ],
  };
}

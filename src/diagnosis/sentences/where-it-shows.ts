import { causePlace, excess, shiftsAt } from '../cause-place.ts';
import type { Cause } from '../causes.ts';
import type { Observed } from '../observed.ts';

/** Standard errors by which a rate has to lie above another for the counts to show it. An assumption of ours. */
const CLEARLY = 2;
/** Crank turns by which clean shifts have to be slower to be worth a word. An assumption of ours. */
const PLAINLY_SLOWER = 0.1;
/** Says of the likeliest cause where the counts of late and missed shifts do not show it by themselves, and what does. */
export function unshownSentences(cause: Cause, seen: Observed): string[] {
  const place = causePlace(cause, seen);
  if (!place || seen.all.shifts === 0) return [];
  const there = shiftsAt(seen, place);
  const elsewhere = { ...there, shifts: seen.all.shifts - there.shifts };
  elsewhere.late = seen.all.late - there.late;
  elsewhere.missed = seen.all.missed - there.missed;
  if (excess(there, elsewhere) >= CLEARLY) return [];
  const all = seen.cleanTurns();
  const turns = seen.cleanTurns(place.direction, (cog) => cog >= place.from && cog <= place.to);
  const slower = turns - all > PLAINLY_SLOWER;
  return [
    `These counts do not show it by themselves: ${
      slower
        ? `the clean shifts among them took ${turns.toFixed(2)} turns of the crank, those of all ${all.toFixed(2)}`
        : 'it is what explains best how long each shift took and how sure its outcome is, all taken together'
    }.`,
  ];
}

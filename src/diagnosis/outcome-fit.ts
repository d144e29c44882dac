import type { ShiftEvent } from '../shifts/ride-events.ts';
import { evidenceWeights } from './assumptions.ts';
import { outcomes } from './evidence-table.ts';

const { trusted, mostAgainst, lateAnyway } = evidenceWeights;
/** Steps from 1 down to `1 / mostAgainst`, equal on the log scale: so many kinds of fit are told apart. */
const steps = 6;
const stepLog = Math.log(mostAgainst) / (steps - 1);

/** Kinds of fit: one number for how well each of the four outcomes fits a shift's records. */
export const fitKinds = steps ** outcomes.length;

/**
 * How well the records about a shift fit each outcome, the best at 1: what they say by themselves, whatever was expected before
 * (posterior over prior). Returned as a kind, 0 to `fitKinds - 1`.
 */
export function fitKind({
  probability,
  expected,
  fromCog,
  toCog,
}: Pick<ShiftEvent, 'probability' | 'expected' | 'fromCog' | 'toCog'>): number {
  const fits = outcomes.map((outcome) => probability[outcome] / Math.max(1e-9, expected[outcome]));
  const over = Math.abs(toCog - fromCog);
  if (over > 1) fits[0] = Math.max(fits[0], (over === 2 ? lateAnyway.overTwo : lateAnyway.overMore) * fits[1]);
  const best = Math.max(...fits);
  return fits.reduce((kind, fit) => {
    const down = Math.min(steps - 1, Math.round((trusted * Math.log(best / Math.max(1e-12, fit))) / stepLog));
    return kind * steps + down;
  }, 0);
}

/** Fit of each outcome, by kind: row `kind` holds four numbers in the order of `outcomes`. */
export const fitOf: Float64Array = Float64Array.from({ length: fitKinds * outcomes.length }, (_, i) => {
  const kind = Math.floor(i / outcomes.length);
  const place = outcomes.length - 1 - (i % outcomes.length);
  return Math.exp(-stepLog * (Math.floor(kind / steps ** place) % steps));
});

import type { ShiftEvent } from '../shifts/ride-events.ts';
import { outcomes } from './evidence-table.ts';

/** No shift's records speak against an outcome by more than this: sensors err in ways that the judgement does not know of. */
const mostAgainst = 200;
/**
 * How far the records are trusted, as a power of what they say: those about one shift share errors with those about the next (the
 * sensors' lag, a cog that takes a little longer by its nature). An assumption of ours.
 */
const trusted = 0.9;
/** Steps from 1 down to `1 / mostAgainst`, equal on the log scale: so many kinds of fit are told apart. */
const steps = 6;
const stepLog = Math.log(mostAgainst) / (steps - 1);

/** Kinds of fit: one number for how well each of the four outcomes fits a shift's records. */
export const fitKinds = steps ** outcomes.length;

/**
 * A shift over several cogs is late now and then on a bike in order: the chain climbs them one after another, and the quicker the
 * presses, the further behind it is at the last. So its lateness speaks for a fault only so far: to the inverse of this.
 */
const lateAnyway = (cogs: number): number => (cogs < 2 ? 0 : cogs === 2 ? 0.1 : 0.3);

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
  fits[0] = Math.max(fits[0], lateAnyway(Math.abs(toCog - fromCog)) * fits[1]);
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

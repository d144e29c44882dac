import type { ShiftEvent } from '../../shifts/ride-events.ts';
import { CLEAN_WITHIN_REVS } from '../../shifts/turn-limits.ts';
import { evidenceWeights } from '../assumptions.ts';
import { outcomes } from './evidence-table.ts';

const { trusted, mostAgainst, soundRevs } = evidenceWeights;
/** Steps from 1 down to `1 / mostAgainst`, equal on the log scale: so many kinds of fit are told apart. */
const STEPS = 6;
const STEP_LOG = Math.log(mostAgainst) / (STEPS - 1);

/** Turns of a shift of which only its lateness is known. */
const TYPICAL_LATE_REVS = 2.5;

/** Kinds of fit: one number for how well each of the four outcomes fits a shift's records. */
export const FIT_KINDS = STEPS ** outcomes.length;

/**
 * How well the records about a shift fit each outcome, the best at 1: what they say by themselves, whatever was expected before
 * (posterior over prior). Returned as a kind, 0 to `FIT_KINDS - 1`. Where nothing is known (probabilities all 0) each fits alike.
 */
export function fitKind({
  probability,
  expected,
  cogsToCross,
  crankRevs,
}: Pick<ShiftEvent, 'probability' | 'expected' | 'cogsToCross' | 'crankRevs'>): number {
  const fits = outcomes.map((outcome) => probability[outcome] / Math.max(1e-9, expected[outcome]));
  fits[0] = Math.max(fits[0], lateAnyway(cogsToCross, crankRevs ?? TYPICAL_LATE_REVS) * fits[1]);
  const best = Math.max(...fits);
  if (best === 0) return 0;
  return fits.reduce((kind, fit) => {
    const down = Math.min(STEPS - 1, Math.round((trusted * Math.log(best / Math.max(1e-12, fit))) / STEP_LOG));
    return kind * STEPS + down;
  }, 0);
}

/** How likely it is, 0 to 1, that a shift went wrong and not only took the turns that so many cogs take on a bike in order. */
export function troubleShare(shift: Parameters<typeof fitKind>[0]): number {
  const from = fitKind(shift) * outcomes.length;
  const [clean, ...wrong] = outcomes.map((outcome, o) => shift.expected[outcome] * fitOf[from + o]);
  const trouble = wrong.reduce((sum, one) => sum + one, 0);
  return trouble > 0 ? trouble / (trouble + clean) : 0;
}

/**
 * How likely crank turns beyond 1.5 are on a bike in order, over that many cogs, against one whose fault holds the chain back; 1 at
 * most. A log-normal distribution against an exponential one.
 */
function lateAnyway(cogs: number, revs: number): number {
  const late = Math.max(CLEAN_WITHIN_REVS, revs);
  const median = soundRevs.one + soundRevs.furtherCog * (cogs - 1);
  const z = Math.log(late / median) / soundRevs.logSpread;
  const sound = Math.exp((-z * z) / 2) / (late * soundRevs.logSpread * Math.sqrt(2 * Math.PI));
  const heldBack = Math.exp(-(late - CLEAN_WITHIN_REVS) / soundRevs.heldBack) / soundRevs.heldBack;
  return Math.min(1, sound / heldBack);
}

/** Fit of each outcome, by kind: row `kind` holds four numbers in the order of `outcomes`. */
export const fitOf: Float64Array = Float64Array.from({ length: FIT_KINDS * outcomes.length }, (_, i) => {
  const kind = Math.floor(i / outcomes.length);
  const place = outcomes.length - 1 - (i % outcomes.length);
  return Math.exp(-STEP_LOG * (Math.floor(kind / STEPS ** place) % STEPS));
});

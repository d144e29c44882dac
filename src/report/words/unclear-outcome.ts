import { percent } from '../../numeric/percent.ts';
import type { RideReport } from '../ride-report-schema.ts';

type Shift = Pick<RideReport['shifts'][number], 'outcome' | 'confidence' | 'outcomeChances'>;

/**
 * True for a shift of which something else than what it counts as is likelier than that. It counts as trouble because trouble of one
 * kind or another is likelier than none, and as the likeliest kind.
 */
export const isUnclear = ({ outcome, confidence }: Shift): boolean =>
  (outcome === 'late' || outcome === 'missed' || outcome === 'overshot') && confidence < 0.5;

/**
 * True for an unclear shift that is likelier to have gone well than to have gone wrong in any one way; false where some kind of trouble is
 * likelier than that and only its kind is open, and where the chances were not kept.
 */
export function mayWellBeClean(shift: Shift): boolean {
  const { outcomeChances } = shift;
  if (!isUnclear(shift) || !outcomeChances) return false;
  const { clean, late, missed, overshot } = outcomeChances;
  return clean >= Math.max(late, missed, overshot);
}

const ways = ['clean', 'late', 'missed', 'overshot'] as const;

/** Every way a shift may have gone, what it counts as first: "34 % late, 40 % clean, 26 % missed"; null where that was not kept. */
export function chancesInWords({ outcome, outcomeChances }: Shift): string | null {
  if (!outcomeChances) return null;
  return ways
    .filter((way) => way === outcome || outcomeChances[way] >= 0.01)
    .sort((a, b) => Number(b === outcome) - Number(a === outcome) || outcomeChances[b] - outcomeChances[a])
    .map((way) => `${percent(outcomeChances[way])} ${way}`)
    .join(', ');
}

/** How many of a ride's shifts are unclear. */
export const unclearShifts = ({ shifts }: { readonly shifts: readonly Shift[] }): number =>
  shifts.filter(isUnclear).length;

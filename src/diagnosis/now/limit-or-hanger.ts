import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { Look } from '../../adjustments/looks.ts';
import type { Cause } from '../causes.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { lastLostMs } from './looks-that-stand.ts';

/** What the question hangs on. `foundRight`: looks that stand. */
interface Seen {
  readonly cause: Cause;
  readonly rides: readonly DiagnosisRide[];
  readonly adjustments: readonly Adjustment[];
  readonly foundRight: readonly Look[];
}

/**
 * Whether a low limit is named that a bent hanger may stand behind: a chain was lost past the largest cog, which one does as well as the other, and nobody
 * looked at the hanger, aligned or replaced it since. Lost chains alone hardly tell the two apart, however likely the limit is.
 */
export function limitOrHanger({ cause, rides, adjustments, foundRight }: Seen): boolean {
  const lostMs = lastLostMs('past-largest', rides);
  if (cause !== 'low-limit-loose' || lostMs === Number.NEGATIVE_INFINITY) return false;
  const mended = adjustments.some(({ at, parameter }) => parameter === 'hanger' && Date.parse(at) > lostMs);
  return !mended && !foundRight.some(({ parameter }) => parameter === 'hanger');
}

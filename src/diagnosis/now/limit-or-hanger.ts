import type { Look } from '../../adjustments/looks.ts';
import type { Cause } from '../causes.ts';
import type { DiagnosisRide } from '../diagnosis.ts';
import { lastLostMs } from './last-lost.ts';

/** What the question hangs on. */
interface Seen {
  readonly cause: Cause;
  readonly rides: readonly DiagnosisRide[];
  /** Parts that need not be looked at again. */
  readonly seenTo: readonly Look[];
}

/**
 * Whether a low limit is named that a bent hanger may stand behind: a chain was lost past the largest cog, which one does as well as the other, and nobody
 * looked at the hanger, aligned or replaced it since. Lost chains alone hardly tell the two apart, however likely the limit is.
 */
export const limitOrHanger = ({ cause, rides, seenTo }: Seen): boolean =>
  cause === 'low-limit-loose' &&
  lastLostMs('past-largest', rides) > Number.NEGATIVE_INFINITY &&
  !seenTo.some(({ parameter }) => parameter === 'hanger');

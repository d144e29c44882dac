import { normalBelow } from '../numeric/normal-below.ts';
import { rateTrend, type SeriesCount } from '../numeric/rate-trend.ts';
import { DECIDED_AT, type TroubleCount } from './compare-rates.ts';
import type { RideCount } from './ride-counts-of.ts';

/** Trouble that grew ride by ride before an adjustment, and after it as it would have without. */
export interface WentOnGrowing {
  readonly firstBefore: TroubleCount;
  readonly lastBefore: TroubleCount;
  readonly firstAfter: TroubleCount;
  /** The same ride as the first where there is only one. */
  readonly lastAfter: TroubleCount;
  /** Probability that it got better, set against where the growth led, and not against the rides before as a whole. */
  readonly probabilityBetter: number;
}

/** Two rides make no growth. */
const LEAST_RIDES = 3;
/** Growth in the rides before alone has fewer of them to show in. An assumption of ours. */
const GREW_BEFORE = 0.9;

const inSeries = ({ trouble, shifts }: RideCount): SeriesCount => ({ bad: trouble, of: shifts });

/**
 * Whether trouble simply went on growing over an adjustment after which there was more of it: it grew over the rides before, it grows over
 * all of them, and beside that growth nothing shows that the adjustment made it worse. Null where it did not.
 */
export function wentOnGrowing(before: readonly RideCount[], after: readonly RideCount[]): WentOnGrowing | null {
  if (before.length < LEAST_RIDES || after.length === 0) return null;
  const all = [...before, ...after].map(inSeries);
  const { slopeZ, stepZ } = rateTrend(all, before.length);
  const grew = normalBelow(rateTrend(before.map(inSeries)).slopeZ) >= GREW_BEFORE;
  if (!grew || normalBelow(slopeZ) < DECIDED_AT || normalBelow(stepZ) >= DECIDED_AT) return null;
  const [firstBefore, lastBefore, firstAfter, lastAfter] = [before[0], before.at(-1), after[0], after.at(-1)].map(
    (ride) => ({ shifts: ride?.shifts ?? 0, trouble: ride?.trouble ?? 0 }),
  );
  return { firstBefore, lastBefore, firstAfter, lastAfter, probabilityBetter: normalBelow(-stepZ) };
}

import { asRidesDiffer } from './as-rides-differ.ts';
import { DECIDED_AT, probabilityBetter, type TroubleCount } from './compare-rates.ts';
import { type RideCount, together } from './ride-counts-of.ts';

/** Trouble that an adjustment took away for a while only. */
export interface CameBack {
  /** Unix milliseconds: start of the ride with which it came back. */
  readonly fromMs: number;
  readonly until: TroubleCount;
  readonly since: TroubleCount;
}

/** Any of the rides may be the one, so each has to be surer. An assumption of ours. */
const SURE = 0.99;
/** A rate of this share of what it was before is trouble come back. An assumption of ours. */
const BACK_TO = 0.5;

const rate = ({ trouble, shifts }: TroubleCount): number => trouble / Math.max(1, shifts);

/**
 * The ride with which trouble came back after an adjustment that had taken it away: the rides up to it are plainly better than those before
 * the adjustment, those from it on plainly worse again. Null where there is none.
 */
export function cameBack(before: readonly RideCount[], after: readonly RideCount[]): CameBack | null {
  const was = together(before);
  const better = (earlier: readonly RideCount[], later: readonly RideCount[]): number =>
    probabilityBetter(asRidesDiffer(earlier), asRidesDiffer(later));
  const found = after
    .slice(1)
    .map(({ startMs }, i) => {
      const [good, bad] = [after.slice(0, i + 1), after.slice(i + 1)];
      return {
        fromMs: startMs,
        until: together(good),
        since: together(bad),
        sure: 1 - better(good, bad),
        cured: better(before, good),
      };
    })
    .filter(({ until, since }) => rate(until) < BACK_TO * rate(was) && rate(since) >= BACK_TO * rate(was))
    .filter(({ sure, cured }) => sure >= SURE && cured >= DECIDED_AT)
    .sort((a, b) => b.sure - a.sure)
    .at(0);
  return found ? { fromMs: found.fromMs, until: found.until, since: found.since } : null;
}

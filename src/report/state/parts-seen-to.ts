import { type Adjustment, adjustmentSchema } from '../../adjustments/adjustment.ts';
import type { RideLosses } from '../../diagnosis/now/last-lost.ts';
import { limitsTurnedIn, seenTo } from '../../diagnosis/now/looks-that-stand.ts';
import { suddenStartMs } from '../../diagnosis/posterior/onset.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';
import { standingAdjustments } from '../standing-adjustments.ts';

type Parameter = Adjustment['parameter'];

/** Parts of a bike that need no look now. */
export interface PartsSeenTo {
  /** Found right, aligned or replaced, and nothing since says that it is to be looked at again. */
  readonly lookedAt: readonly Parameter[];
  /** The same, and limits whose screw was turned in. */
  readonly lookedAtOrSet: readonly Parameter[];
}

/** Which parts were seen to, by the rule of the diagnosis. */
export function partsSeenTo(report: Report): PartsSeenTo {
  const since = {
    rides: ridesThatCount(report).map(lossesOf),
    adjustments: known(standingAdjustments(report)),
    beganMs: suddenStartMs(report.diagnosis.onset),
  };
  const looks = known((report.looks ?? []).map((look) => ({ ...look, amount: 0 })));
  const lookedAt = seenTo(looks, since).map(({ parameter }) => parameter);
  return { lookedAt, lookedAtOrSet: [...lookedAt, ...limitsTurnedIn(since).map(({ parameter }) => parameter)] };
}

/** What a report lists of the parts and parameters that we know: it may list others. */
export const known = (listed: readonly object[]): Adjustment[] =>
  listed.flatMap((one) => adjustmentSchema.safeParse(one).data ?? []);

/** When a ride of a report began, and the chains that it lost. */
export function lossesOf({ start, chainDrops }: Report['rides'][number]): RideLosses {
  const startMs = Date.parse(start);
  return {
    startMs,
    events: { chainDrops: chainDrops.map(({ side, at }) => ({ side, timeS: (Date.parse(at) - startMs) / 1000 })) },
  };
}

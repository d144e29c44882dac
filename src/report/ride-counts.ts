import type { Outcome } from '../shifts/ride-events.ts';
import type { RideReport } from './ride-report-schema.ts';

/** How many events of each kind there are. */
export type RideCounts = RideReport['counts'];

/** A ride's lists of events, as the engine or as the report holds them. */
interface EventLists {
  readonly shifts: readonly { readonly outcome: Outcome }[];
  readonly ghostShifts: readonly unknown[];
  readonly chainDrops: readonly unknown[];
  readonly skips: readonly unknown[];
}

/** Counts the events of a ride. */
export function countEvents({ shifts, ghostShifts, chainDrops, skips }: EventLists): RideCounts {
  const outcomes: Record<Outcome, number> = { clean: 0, late: 0, missed: 0, overshot: 0, unjudged: 0 };
  for (const { outcome } of shifts) outcomes[outcome]++;
  return {
    shifts: shifts.length,
    ...outcomes,
    ghostShifts: ghostShifts.length,
    chainDrops: chainDrops.length,
    skips: skips.length,
  };
}

/** The counts of several rides together; all 0 of none. */
export function sumCounts(rides: readonly { readonly counts: RideCounts }[]): RideCounts {
  const sums = countEvents({ shifts: [], ghostShifts: [], chainDrops: [], skips: [] });
  for (const { counts } of rides)
    for (const name of Object.keys(sums) as (keyof RideCounts)[]) sums[name] += counts[name];
  return sums;
}

import type { Bike } from '../../drivetrain/bike.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { isSpeedInMps } from '../disagreement/rollout-warning.ts';
import type { RideTrace } from '../gear-trace.ts';
import { traceGears } from '../trace-gears.ts';

/** Teeth that rides show, with the ride that shows the most of them and its rollout in mm. */
export interface Measured {
  readonly teeth: RideTrace['measured'];
  readonly rolloutMm: number;
  readonly ride: RideLog;
}

/** Rides looked at for the teeth: the longest show the most. */
const LONGEST = 4;

/** Sets rides alike in all that counts in an order of their own, so that the order in which they are given decides nothing. */
export const inOwnOrder = (a: RideLog, b: RideLog): number =>
  a.startMs - b.startMs || (a.file < b.file ? -1 : Number(a.file > b.file));

/** The rides with the most records, at most four, the longest first. */
export const longestRides = (logs: readonly RideLog[]): RideLog[] =>
  [...logs].sort((a, b) => b.timeS.length - a.timeS.length || inOwnOrder(a, b)).slice(0, LONGEST);

/**
 * What the longest rides measure: the one that shows the most teeth (of several the longest), with the teeth that others show and it does not,
 * as far as they agree with it. Null where none has speed, cadence and gear records to measure by.
 *
 * @param asRead the bike as the records name it
 */
export function measuredBy(logs: readonly RideLog[], asRead: Bike): Measured | null {
  const all = longestRides(logs).flatMap((ride): Measured[] => {
    const { evidence, rolloutMm, measured } = traceGears(ride, asRead);
    return evidence === 'full' && isSpeedInMps(rolloutMm, Number.NaN) ? [{ teeth: measured, rolloutMm, ride }] : [];
  });
  const [most, ...others] = all.sort((a, b) => shownIn(b.teeth) - shownIn(a.teeth));
  return most ? { ...most, teeth: others.reduce((teeth, other) => joined(teeth, other.teeth), most.teeth) } : null;
}

type Teeth = Measured['teeth'];

const shownIn = ({ chainrings, cassette }: Teeth): number =>
  [...chainrings, ...cassette].filter((teeth) => teeth !== null).length;

/** The teeth that either shows; those of `own` alone where the two differ on any. */
function joined(own: Teeth, other: Teeth): Teeth {
  const parts = ['chainrings', 'cassette'] as const;
  const differ = parts.some((part) =>
    own[part].some((teeth, i) => teeth !== null && other[part][i] !== null && teeth !== other[part][i]),
  );
  if (differ) return own;
  const [chainrings, cassette] = parts.map((part) => own[part].map((teeth, i) => teeth ?? other[part][i]));
  return { chainrings, cassette };
}

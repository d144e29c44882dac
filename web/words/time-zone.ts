import { HOUR_MS } from '../../src/numeric/time-units.ts';
import { dayAndTime, isDated } from './dates.ts';

/** Code of the remark on a ride whose times are of no named zone; they were taken as UTC. */
export const noTimeZone = 'no-time-zone';

/** How many hours the clocks of the world stand before UTC at most, and after it. */
const MOST_AHEAD_H = 14;
const MOST_BEHIND_H = 12;

/** The zone that the page's times are in: "Europe/Zurich". */
export const ownZone = (): string => new Intl.DateTimeFormat('en-GB').resolvedOptions().timeZone;

/** Says so, to stand once where times are listed. */
export const ownZoneSentence = (): string => `Times are those of this browser’s time zone, ${ownZone()}.`;

interface Remarked {
  readonly start: string | null;
  readonly warnings: readonly { readonly code: string }[];
}

const isUnzoned = ({ start, warnings }: Remarked): boolean =>
  start !== null && isDated(start) && warnings.some(({ code }) => code === noTimeZone);

/** What the start of a ride hangs on where its file names no time zone; null where it does. */
export const zoneRemark = (ride: Remarked): string | null =>
  isUnzoned(ride) && ride.start !== null
    ? `Its file names no time zone: ${ride.start.slice(11, 16)} there was taken as UTC`
    : null;

/**
 * Says of an adjustment that it may have been made on the other side of a ride than it is taken for, since the file of the ride names
 * no time zone: in some zone of the world the two would stand the other way round. Null where no ride is so near.
 */
export function zoneDoubt(
  at: string,
  rides: readonly (Remarked & { readonly start: string; readonly durationS: number })[],
): string | null {
  const ms = Date.parse(at);
  const near = rides.filter((ride) => {
    const startMs = Date.parse(ride.start);
    const endMs = startMs + ride.durationS * 1000;
    return isUnzoned(ride) && ms > startMs - MOST_AHEAD_H * HOUR_MS && ms < endMs + MOST_BEHIND_H * HOUR_MS;
  });
  if (near.length === 0) return null;
  const [first, ...others] = near;
  const which =
    others.length === 0
      ? `the ride of ${dayAndTime(first.start)} was before or after it: its file names no time zone and was taken as UTC`
      : `${near.length} rides near it, such as that of ${dayAndTime(first.start)}, were before or after it: their files name no time zone and were taken as UTC`;
  return `It is not sure whether ${which}.`;
}

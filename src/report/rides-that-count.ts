import type { BikeRide } from './ride-report-schema.ts';

/** The rides of a report that count for its bike, in the report's order. */
export const ridesThatCount = <Ride extends Pick<BikeRide, 'leftOut'>>({
  rides,
}: {
  readonly rides: readonly Ride[];
}): Ride[] => rides.filter(({ leftOut }) => leftOut === null);

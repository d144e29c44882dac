/**
 * Which rides do not count since another that does holds their records, each with that other. A ride whose only whole does not count
 * itself counts: nothing is left out unless what holds it is in. Of rides that hold one another the first counts.
 *
 * @param rides in the order in which they came
 * @param wholesOf those of `rides` that a ride is a stretch of (see `isPartOfRide`), the one to be named first
 */
export function countedElsewhere<Ride>(
  rides: readonly Ride[],
  wholesOf: (ride: Ride) => readonly Ride[],
): Map<Ride, Ride> {
  const place = new Map(rides.map((ride, i) => [ride, i]));
  const wholes = new Map(rides.map((ride) => [ride, wholesOf(ride)]));
  const comesBefore = (whole: Ride, ride: Ride): boolean =>
    !wholes.get(whole)?.includes(ride) || (place.get(whole) as number) < (place.get(ride) as number);
  const elsewhere = new Map<Ride, Ride>();
  const settled = new Set<Ride>();
  const settle = (ride: Ride): void => {
    if (settled.has(ride)) return;
    settled.add(ride);
    for (const whole of wholes.get(ride) ?? []) {
      if (!comesBefore(whole, ride)) continue;
      settle(whole);
      if (elsewhere.has(whole)) continue;
      elsewhere.set(ride, whole);
      return;
    }
  };
  for (const ride of rides) settle(ride);
  return elsewhere;
}

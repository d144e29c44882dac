import { moreGears, otherCogs } from './another-bike.ts';

/**
 * Tells for each ride of a bike whether it is another bike's and must not speak of this one: its records have more gears than the bike, or name
 * mostly other cogs while other rides name the bike's. Where all rides name other cogs, the bike file is likelier wrong than they.
 *
 * @param rides codes of the warnings of each ride, null for one without gear records
 */
export function foreignRides(rides: readonly (readonly string[] | null)[]): boolean[] {
  const fits = rides.some((codes) => codes !== null && !codes.includes(otherCogs) && !codes.includes(moreGears));
  return rides.map((codes) => codes !== null && (codes.includes(moreGears) || (fits && codes.includes(otherCogs))));
}

import { listBikes } from '../store/bike-store.ts';
import { findRide, findRideByContent } from '../store/ride-store.ts';
import type { Sql } from '../store/sql.ts';
import type { ArchivedBike } from './archive-shapes.ts';
import type { OpenArchive } from './read-archive.ts';

/**
 * Which bike here each bike of the archive is, by its id there; those that are new here are left out. It is the one
 * with the same id, else the one that most of its rides are on here, else the one that is described quite the same.
 * Two bikes may be described alike, as in a fleet, and once melted into one they cannot be told apart any more: no bike
 * here is taken for two, and a description tells a bike only where one bike there and one bike here have it.
 */
export function matchBikes(sql: Sql, archive: Pick<OpenArchive, 'bikes' | 'rides'>): ReadonlyMap<string, string> {
  const here = listBikes(sql);
  const matched = new Map<string, string>();
  const taken = new Set<string>();
  const match = (there: string, id: string | undefined): void => {
    if (id === undefined || matched.has(there) || taken.has(id)) return;
    matched.set(there, id);
    taken.add(id);
  };
  const ids = new Set(here.map(({ id }) => id));
  for (const { id } of archive.bikes) if (ids.has(id)) match(id, id);
  for (const { there, id } of sharedRides(sql, archive)) match(there, id);
  const oneHere = onlyOnes(here);
  const oneThere = onlyOnes(archive.bikes);
  for (const [description, { id: there }] of oneThere) match(there, oneHere.get(description)?.id);
  return matched;
}

/** The bikes there and here that have rides in common, those with the most rides first. */
function sharedRides(
  sql: Sql,
  { bikes, rides }: Pick<OpenArchive, 'bikes' | 'rides'>,
): { there: string; id: string }[] {
  const known = new Set(bikes.map(({ id }) => id));
  const votes = new Map<string, { there: string; id: string; rides: number }>();
  for (const { bikeId: there, sha256, archivedSha256 } of rides) {
    if (there === null || !known.has(there)) continue;
    const ride = findRideByContent(sql, sha256, archivedSha256);
    const id = ride && findRide(sql, ride.id)?.bikeId;
    if (!id) continue;
    const key = `${there} ${id}`;
    votes.set(key, { there, id, rides: (votes.get(key)?.rides ?? 0) + 1 });
  }
  return [...votes.values()].sort((a, b) => b.rides - a.rides);
}

/** The bikes whose description no other of the list has, by that description. */
function onlyOnes<Listed extends Pick<ArchivedBike, 'bike'>>(bikes: readonly Listed[]): Map<string, Listed> {
  const only = new Map<string, Listed>();
  const seen = new Set<string>();
  for (const listed of bikes) {
    const description = JSON.stringify(listed.bike);
    if (seen.has(description)) only.delete(description);
    else only.set(description, listed);
    seen.add(description);
  }
  return only;
}

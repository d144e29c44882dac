import { hasAdjustment, insertAdjustment, listAdjustments } from '../store/adjustment-store.ts';
import { insertBike, listBikes, type StoredBike, touchBike } from '../store/bike-store.ts';
import { newId } from '../store/new-id.ts';
import { findRide, findRideByContent } from '../store/ride-store.ts';
import type { Sql } from '../store/sql.ts';
import type { ArchivedBike } from './archive-shapes.ts';
import type { OpenArchive } from './read-archive.ts';

/** Which bike here each bike of the archive is, and what was added. */
export interface MergedBikes {
  readonly bikeIds: ReadonlyMap<string, string>;
  readonly bikes: { readonly added: number; readonly merged: number };
  readonly adjustments: { readonly added: number; readonly known: number };
}

/** Adds the archive's bikes and adjustments that are not here yet. To be run within a transaction. */
export function mergeBikes(sql: Sql, archive: Pick<OpenArchive, 'bikes' | 'rides'>): MergedBikes {
  const bikeIds = new Map<string, string>();
  const bikes = { added: 0, merged: 0 };
  const adjustments = { added: 0, known: 0 };
  for (const archived of archive.bikes) {
    const here = sameBike(sql, archived, archive);
    const { bike, source, sample, notes, id } = archived;
    const bikeId = here?.id ?? insertBike(sql, bike, source, { id, sample, notes });
    bikes[here ? 'merged' : 'added']++;
    bikeIds.set(id, bikeId);
    const added = mergeAdjustments(sql, bikeId, archived);
    adjustments.added += added;
    adjustments.known += archived.adjustments.length - added;
    if (here && added > 0) touchBike(sql, bikeId);
  }
  return { bikeIds, bikes, adjustments };
}

/** The bike here with the same id, else the one that most of its rides are on here, else one that is quite the same. */
function sameBike(sql: Sql, archived: ArchivedBike, { rides }: Pick<OpenArchive, 'rides'>): StoredBike | undefined {
  const here = listBikes(sql);
  const byId = here.find(({ id }) => id === archived.id);
  if (byId) return byId;
  const votes = new Map<string, number>();
  for (const ride of rides) {
    if (ride.bikeId !== archived.id) continue;
    const known = findRideByContent(sql, ride.sha256, ride.archivedSha256);
    const bikeId = known && findRide(sql, known.id)?.bikeId;
    if (bikeId) votes.set(bikeId, (votes.get(bikeId) ?? 0) + 1);
  }
  const [most] = [...votes].sort((a, b) => b[1] - a[1]);
  const content = JSON.stringify(archived.bike);
  return here.find(({ id, bike }) => (most ? id === most[0] : JSON.stringify(bike) === content));
}

function mergeAdjustments(sql: Sql, bikeId: string, archived: ArchivedBike): number {
  const key = ({ at, parameter, amount }: ArchivedBike['adjustments'][number]): string =>
    `${Date.parse(at)} ${parameter} ${amount}`;
  const here = listAdjustments(sql, bikeId);
  const known = new Set(here.map(key));
  const ids = new Set(here.map(({ id }) => id));
  const fresh = archived.adjustments.filter((adjustment) => !known.has(key(adjustment)) && !ids.has(adjustment.id));
  for (const { id, ...adjustment } of fresh)
    insertAdjustment(sql, bikeId, adjustment, hasAdjustment(sql, id) ? newId() : id);
  return fresh.length;
}

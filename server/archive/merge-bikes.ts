import { adjustmentKey } from '../../src/adjustments/adjustment-key.ts';
import { hasAdjustment, insertAdjustment, listAdjustments } from '../store/adjustment-store.ts';
import { insertBike, touchBike } from '../store/bike-store.ts';
import { newId } from '../store/new-id.ts';
import type { Sql } from '../store/sql.ts';
import { putWorkshopMark } from '../store/workshop-mark-store.ts';
import type { ArchivedBike } from './archive-shapes.ts';
import { matchBikes } from './match-bikes.ts';
import type { OpenArchive } from './read-archive.ts';

/** Which bike here each bike of the archive is, and what was added. */
export interface MergedBikes {
  readonly bikeIds: ReadonlyMap<string, string>;
  readonly bikes: { readonly added: number; readonly merged: number };
  readonly adjustments: { readonly added: number; readonly known: number };
}

/** Adds the archive's bikes and adjustments that are not here yet. Whether a bike that is here is set aside for the workshop is not the archive's to say. To be run within a transaction. */
export function mergeBikes(sql: Sql, archive: Pick<OpenArchive, 'bikes' | 'rides'>): MergedBikes {
  const bikeIds = new Map<string, string>();
  const bikes = { added: 0, merged: 0 };
  const adjustments = { added: 0, known: 0 };
  const matched = matchBikes(sql, archive);
  for (const archived of archive.bikes) {
    const { bike, source, sample, notes, certainty, id } = archived;
    const here = matched.get(id);
    const bikeId = here ?? insertBike(sql, bike, source, { id, sample, notes, certainty });
    if (!here && archived.workshopMark) putWorkshopMark(sql, bikeId, archived.workshopMark);
    bikes[here ? 'merged' : 'added']++;
    bikeIds.set(id, bikeId);
    const added = mergeAdjustments(sql, bikeId, archived);
    adjustments.added += added;
    adjustments.known += archived.adjustments.length - added;
    if (here && added > 0) touchBike(sql, bikeId);
  }
  return { bikeIds, bikes, adjustments };
}

function mergeAdjustments(sql: Sql, bikeId: string, archived: ArchivedBike): number {
  const here = listAdjustments(sql, bikeId);
  const known = new Set(here.map(adjustmentKey));
  const ids = new Set(here.map(({ id }) => id));
  // entries of the archive that say the same stay as many as they were there: their notes may differ
  const fresh = archived.adjustments.filter((entry) => !known.has(adjustmentKey(entry)) && !ids.has(entry.id));
  for (const { id, ...adjustment } of fresh)
    insertAdjustment(sql, bikeId, adjustment, hasAdjustment(sql, id) ? newId() : id);
  return fresh.length;
}

import type { Warning } from '../../src/errors/warning.ts';
import { durationWords } from '../../src/report/words/number-words.ts';
import { countedElsewhere } from '../../src/ride-log/counted-elsewhere.ts';
import { listParts, type WholeRide } from '../store/part-store.ts';
import type { Sql } from '../store/sql.ts';

/**
 * Rides that do not count on their bike since a longer one there holds their records, each with that one; of one bike,
 * or of all. A ride counts again as soon as what holds it is removed, moved away or fails.
 */
export function cutCopies(sql: Sql, bikeId?: string): Map<string, WholeRide> {
  const parts = listParts(sql, bikeId);
  const wholeIds = new Map<string, string[]>();
  for (const { partId, whole } of parts) wholeIds.set(partId, [...(wholeIds.get(partId) ?? []), whole.id]);
  const wholes = new Map(parts.map(({ whole }) => [whole.id, whole]));
  const ids = [...new Set([...wholeIds.keys(), ...wholes.keys()])];
  return new Map(
    [...countedElsewhere(ids, (id) => wholeIds.get(id) ?? [])].map(([id, wholeId]) => [
      id,
      wholes.get(wholeId) as WholeRide,
    ]),
  );
}

/** What a reader of such a ride must know. */
export const cutCopyWarning = ({ file, durationS }: WholeRide): Warning => ({
  code: 'duplicate',
  message: `This ride does not count: it holds nothing but the ride ${file} (${durationWords(durationS)}) or a part of it, which is counted there. Nothing of it is lost; it counts again when that ride is removed.`,
});

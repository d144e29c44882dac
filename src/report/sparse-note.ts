import { sparseRecords } from '../gear-trace/disagreement/sparse-warning.ts';
import type { RideReport } from './ride-report-schema.ts';

/** What a verdict cannot tell for want of records: a note where rides with gear records have them far apart, else none. */
export function sparseNote(rides: readonly Pick<RideReport, 'evidence' | 'warnings'>[]): string[] {
  const judged = rides.filter(({ evidence }) => evidence === 'full');
  const sparse = judged.filter(({ warnings }) => warnings.some(({ code }) => code === sparseRecords));
  if (sparse.length === 0) return [];
  const which = sparse.length === judged.length ? 'every ride' : `${sparse.length} of ${judged.length} rides`;
  return [
    `In ${which} with gear records and cadence the records lie so far apart that most shifts pass unseen between them: a fault may be there and not show. Set the recorder to write one record a second.`,
  ];
}

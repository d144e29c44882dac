import { type Cause, isIndexing } from '../causes.ts';
import type { TurnEstimate } from '../diagnosis.ts';

/** Whether the turns that would set the indexing right have the sign that a cause asks for; true for a cause of any other setting. */
export function pointsTheSameWay(cause: Cause, { mean }: Pick<TurnEstimate, 'mean'>): boolean {
  return !isIndexing(cause) || (cause === 'cable-tension-low' ? mean > 0 : mean < 0);
}

import type { Adjustment } from './adjustment.ts';
import { adjustmentKey } from './adjustment-key.ts';

type Entry = Pick<Adjustment, 'at' | 'parameter' | 'amount'>;

/** Those of the entries that a log does not hold, each once. What the notes beside them say makes no other entry of them. */
export function notYetLogged<One extends Entry>(log: readonly Entry[], entries: readonly One[]): One[] {
  const known = new Set(log.map(adjustmentKey));
  return entries.filter((entry) => {
    const isNew = !known.has(adjustmentKey(entry));
    known.add(adjustmentKey(entry));
    return isNew;
  });
}

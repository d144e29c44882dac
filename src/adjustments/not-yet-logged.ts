import type { Adjustment } from './adjustment.ts';

type Entry = Pick<Adjustment, 'at' | 'parameter' | 'amount'>;

const keyOf = ({ at, parameter, amount }: Entry): string => `${Date.parse(at)} ${parameter} ${amount}`;

/** Those of the entries that a log does not hold, each once. What the notes beside them say makes no other entry of them. */
export function notYetLogged<One extends Entry>(log: readonly Entry[], entries: readonly One[]): One[] {
  const known = new Set(log.map(keyOf));
  return entries.filter((entry) => {
    const isNew = !known.has(keyOf(entry));
    known.add(keyOf(entry));
    return isNew;
  });
}

import { isPartOfRide } from '../../src/ride-log/part-of-ride.ts';
import { readKept, readKeptIfThere } from './read-kept.ts';
import type { CompareAnswer, CompareTask } from './tasks.ts';

/** Tells which of the others hold all that a ride holds, and of which it holds all. One that cannot be read is not compared. */
export function compareRide({ ride, others }: CompareTask): CompareAnswer {
  const log = readKept(ride);
  const compared: string[] = [];
  const partOf: string[] = [];
  const wholeOf: string[] = [];
  for (const { id, ...kept } of others) {
    const other = readKeptIfThere(kept);
    if (!other) continue;
    compared.push(id);
    if (isPartOfRide(log, other)) partOf.push(id);
    if (isPartOfRide(other, log)) wholeOf.push(id);
  }
  return { compared, partOf, wholeOf };
}

import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import { isPartOfRide } from '../../src/ride-log/part-of-ride.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { readKept } from './read-kept.ts';
import type { CompareAnswer, CompareTask, KeptRide } from './tasks.ts';

/** Tells which of the others hold all that a ride holds, and of which it holds all. One that cannot be read is not compared. */
export function compareRide({ ride, others }: CompareTask): CompareAnswer {
  const log = readKept(ride);
  const compared: string[] = [];
  const partOf: string[] = [];
  const wholeOf: string[] = [];
  for (const { id, ...kept } of others) {
    const other = readIfThere(kept);
    if (!other) continue;
    compared.push(id);
    if (isPartOfRide(log, other)) partOf.push(id);
    if (isPartOfRide(other, log)) wholeOf.push(id);
  }
  return { compared, partOf, wholeOf };
}

/** Null for a ride that was removed meanwhile or is damaged: its own analysis says so. */
function readIfThere(kept: KeptRide): RideLog | null {
  try {
    return readKept(kept);
  } catch (error) {
    if (error instanceof CogwrightError || (error as { code?: string }).code === 'ENOENT') return null;
    throw error;
  }
}

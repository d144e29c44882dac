import { readFileSync } from 'node:fs';
import { dropPositions } from '../positions/drop-positions.ts';
import type { PlacelessAnswer, PlacelessTask } from './tasks.ts';

/** A kept ride's bytes without its positions, for an archive: positions that are kept on purpose still do not leave. */
export function placelessRide({ path, file }: PlacelessTask): PlacelessAnswer {
  return dropPositions(file, readFileSync(path)).bytes;
}

import { extname } from 'node:path';
import { isAdjustmentTable } from '../adjustments/is-adjustment-table.ts';
import { textDecoder } from '../ride-log/decode-text.ts';
import { packedWith } from '../ride-log/packed-with.ts';
import { fileBeginning } from './file-beginning.ts';
import { readsLikeRide } from './reads-like-ride.ts';

const rideEndings = new Set(['.fit', '.tcx', '.gpx', '.csv']);
const packedEndings = new Set(['.gz', '.zip', '.bz2', '.xz', '.zst', '.7z']);

/** True where a file's name ends as a ride log's does: one that then cannot be read as a ride is not to be passed over without a word. */
export const isNamedLikeRide = (path: string): boolean => rideEndings.has(extname(path).toLowerCase());

/**
 * True where a file found in a folder is worth trying as a ride: its name ends as ride logs do, or its beginning reads
 * like one. So is a packed file, which is no ride that can
 * be read but may hold one. Bike files, adjustments and other company in the folder are left alone.
 */
export function looksLikeRide(path: string): boolean {
  const start = fileBeginning(path);
  if (isNamedLikeRide(path)) return !readsLikeAdjustments(path, start);
  if (packedEndings.has(extname(path).toLowerCase()) && packedWith(start)) return true;
  return readsLikeRide(start);
}

/** True where a file reads like a log of adjustments; false where its encoding is not known. */
function readsLikeAdjustments(path: string, start: Uint8Array): boolean {
  try {
    return isAdjustmentTable(textDecoder(path, start).decode(start));
  } catch {
    return false;
  }
}

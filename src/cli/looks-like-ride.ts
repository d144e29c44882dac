import { isAdjustmentTable } from '../adjustments/is-adjustment-table.ts';
import { textDecoder } from '../ride-log/decode-text.ts';
import { isNamedLikeRide, worthTrying } from '../ride-log/worth-trying.ts';
import { fileBeginning } from './file-beginning.ts';

/** True where a file found in a folder is to be read as a ride. Bike files, adjustments and other company in the folder are left alone. */
export function looksLikeRide(path: string): boolean {
  const start = fileBeginning(path);
  return worthTrying(path, start) && !(isNamedLikeRide(path) && readsLikeAdjustments(path, start));
}

/** True where a file reads like a log of adjustments; false where its encoding is not known. */
function readsLikeAdjustments(path: string, start: Uint8Array): boolean {
  try {
    return isAdjustmentTable(textDecoder(path, start).decode(start));
  } catch {
    return false;
  }
}

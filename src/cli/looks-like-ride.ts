import { extname } from 'node:path';
import { isAdjustmentTable } from '../adjustments/is-adjustment-table.ts';
import { textDecoder } from '../ride-log/decode-text.ts';
import { packedWith } from '../ride-log/packed-with.ts';
import { fileBeginning } from './file-beginning.ts';

const rideEndings = new Set(['.fit', '.tcx', '.gpx', '.csv']);
const packedEndings = new Set(['.gz', '.zip', '.bz2', '.xz', '.zst', '.7z']);
const rideColumns = /(^|[,;\t"])(time_s|speed_mps|cadence_rpm|power_w|distance_m|front_teeth|rear_teeth)($|[,;\t"\s])/i;

/** True where a file's name ends as a ride log's does: one that then cannot be read as a ride is not to be passed over without a word. */
export const isNamedLikeRide = (path: string): boolean => rideEndings.has(extname(path).toLowerCase());

/**
 * True where a file found in a folder is worth trying as a ride: its name ends as ride logs do, or its beginning reads
 * like one (FIT header, TCX or GPX root, a CSV header with a ride column). So is a packed file, which is no ride that can
 * be read but may hold one. Bike files, adjustments and other company in the folder are left alone.
 */
export function looksLikeRide(path: string): boolean {
  const start = fileBeginning(path);
  if (isNamedLikeRide(path)) return !readsLikeAdjustments(path, start);
  if (packedEndings.has(extname(path).toLowerCase()) && packedWith(start)) return true;
  if (start.subarray(8, 12).toString('latin1') === '.FIT') return true;
  const text = start.toString('latin1');
  if (/<(\w+:)?(TrainingCenterDatabase|gpx)[\s>]/.test(text)) return true;
  const firstLine = text.replace(/^(\u00EF\u00BB\u00BF|\s)+/, '').split(/\r?\n|\r/, 1)[0];
  return !/^[{[]/.test(firstLine) && rideColumns.test(firstLine);
}

/** True where a file reads like a log of adjustments; false where its encoding is not known. */
function readsLikeAdjustments(path: string, start: Uint8Array): boolean {
  try {
    return isAdjustmentTable(textDecoder(path, start).decode(start));
  } catch {
    return false;
  }
}

import { closeSync, openSync, readSync } from 'node:fs';
import { extname } from 'node:path';
import { packedWith } from '../ride-log/packed-with.ts';

const SNIFFED_BYTES = 4096;
const rideEndings = new Set(['.fit', '.tcx', '.gpx']);
const packedEndings = new Set(['.gz', '.zip', '.bz2', '.xz', '.zst', '.7z']);
const rideColumns = /(^|[,;\t"])(time_s|speed_mps|cadence_rpm|power_w|distance_m|front_teeth|rear_teeth)($|[,;\t"\s])/i;

/**
 * True where a file found in a folder is worth trying as a ride: its name ends as ride logs do, or its beginning reads
 * like one (FIT header, TCX or GPX root, a CSV header with a ride column). So is a packed file, which is no ride that can
 * be read but may hold one: it is not to be passed over without a word. Bike files, adjustments and other
 * company in the folder are left alone.
 */
export function looksLikeRide(path: string): boolean {
  if (rideEndings.has(extname(path).toLowerCase())) return true;
  const start = beginning(path);
  if (packedEndings.has(extname(path).toLowerCase()) && packedWith(start)) return true;
  if (start.subarray(8, 12).toString('latin1') === '.FIT') return true;
  const text = start.toString('latin1');
  if (/<(\w+:)?(TrainingCenterDatabase|gpx)[\s>]/.test(text)) return true;
  const firstLine = text.replace(/^(\u00EF\u00BB\u00BF|\s)+/, '').split(/\r?\n|\r/, 1)[0];
  return !/^[{[]/.test(firstLine) && rideColumns.test(firstLine);
}

function beginning(path: string): Buffer {
  const buffer = Buffer.alloc(SNIFFED_BYTES);
  let file: number;
  try {
    file = openSync(path, 'r');
  } catch {
    return Buffer.alloc(0);
  }
  try {
    return buffer.subarray(0, readSync(file, buffer));
  } finally {
    closeSync(file);
  }
}

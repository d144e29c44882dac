import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const FOLDER = new URL('../../../shared/real-rides/', import.meta.url);

/** Real rides lie outside the project; tests that want them are skipped where they are missing. */
export const haveRealRides = existsSync(FOLDER);
if (!haveRealRides) console.warn(`Skipped: real rides are not at ${fileURLToPath(FOLDER)}.`);

export const realRide = (name: string): Uint8Array<ArrayBuffer> => new Uint8Array(readFileSync(new URL(name, FOLDER)));

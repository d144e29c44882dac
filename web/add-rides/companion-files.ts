import { type CompanionKind, companionKind } from '../../src/adjustments/companion-kind.ts';
import { parseBike } from '../../src/drivetrain/parse-bike.ts';
import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import { plainText } from '../../src/errors/plain-text.ts';
import { textDecoder } from '../../src/ride-log/decode-text.ts';
import type { Bike } from '../api/answers.ts';
import { pathOf } from './file-path.ts';

/** Bike and adjustments files are written by hand: what is larger is a ride. */
const MOST_BYTES = 256 * 1024;

/** A bike file; `fault` says what is wrong where there is no `bike`. */
export interface BikeFile {
  readonly file: string;
  /** Where it lay, with its name. */
  readonly path: string;
  readonly bike: Bike | null;
  readonly fault: string | null;
}

/** A file of adjustments; `fault` says what is wrong where it cannot be taken in. */
export interface AdjustmentsFile {
  readonly file: File;
  /** How many adjustments it holds; null where it cannot be read. */
  readonly count: number | null;
  readonly fault: string | null;
}

/** Chosen files by what they hold. */
export interface SortedFiles {
  readonly rides: readonly File[];
  readonly bikes: readonly BikeFile[];
  readonly adjustments: readonly AdjustmentsFile[];
}

async function bytesOf(file: File): Promise<Uint8Array> {
  return new Uint8Array(await file.arrayBuffer());
}

/** Text of a file to tell its kind by; empty where it is too large for one that goes with rides, or cannot be read. */
async function textToTell(file: File): Promise<string> {
  if (file.size > MOST_BYTES) return '';
  try {
    const bytes = await bytesOf(file);
    return textDecoder(file.name, bytes).decode(bytes);
  } catch {
    return '';
  }
}

const kindOf = async (file: File): Promise<CompanionKind | null> => companionKind(await textToTell(file));

/** Whether a file is a bike file or a log of adjustments, broken or not. */
export const isCompanion = async (file: File): Promise<boolean> => (await kindOf(file)) !== null;

/**
 * The text of a file that people write by hand.
 *
 * @throws FileError where it is no text
 */
export const handWritten = async (file: File): Promise<string> => plainText(file.name, await bytesOf(file));

/** The bike in a file, or what is wrong with the file. */
export async function readBikeFile(file: File): Promise<BikeFile> {
  try {
    return { file: file.name, path: pathOf(file), bike: parseBike(file.name, await handWritten(file)), fault: null };
  } catch (error) {
    if (!(error instanceof CogwrightError)) throw error;
    return { file: file.name, path: pathOf(file), bike: null, fault: error.message };
  }
}

/** What a file of adjustments holds, or what is wrong with it. Its reader is fetched only once there is one to read. */
async function readAdjustmentsFile(file: File): Promise<AdjustmentsFile> {
  const { parseAdjustments } = await import('../../src/adjustments/parse-adjustments.ts');
  try {
    return { file, count: parseAdjustments(file.name, await handWritten(file)).length, fault: null };
  } catch (error) {
    if (!(error instanceof CogwrightError)) throw error;
    return { file, count: null, fault: error.message };
  }
}

/** Parts chosen files into rides and what goes with them. */
export async function sortFiles(files: readonly File[]): Promise<SortedFiles> {
  const kinds = await Promise.all(files.map(kindOf));
  const of = (kind: (typeof kinds)[number]): File[] => files.filter((_, i) => kinds[i] === kind);
  const [bikes, adjustments] = await Promise.all([
    Promise.all(of('bike').map(readBikeFile)),
    Promise.all(of('adjustments').map(readAdjustmentsFile)),
  ]);
  return { rides: of(null), bikes, adjustments };
}

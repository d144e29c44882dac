import { type CompanionKind, companionKind } from '../adjustments/companion-kind.ts';
import { FileError } from '../errors/file-error.ts';
import { textDecoder } from '../ride-log/decode-text.ts';
import { readsLikeRide } from '../ride-log/reads-like-ride.ts';
import { fileBeginning } from './file-beginning.ts';
import { readTextFile } from './read-text-file.ts';

const names: Readonly<Record<CompanionKind, string>> = { bike: 'a bike file', adjustments: 'a file of adjustments' };

/**
 * Text of a bike or adjustments file that was given with its option.
 *
 * @throws FileError `is-a-ride` where a ride was given instead, `is-another-file` where the one kind was given for the other, else as `readTextFile`
 */
export function readCompanion(path: string, kind: CompanionKind): string {
  if (readsLikeRide(fileBeginning(path)))
    throw new FileError(
      path,
      'is-a-ride',
      `is a ride, not ${names[kind]}`,
      `Give it among the rides, and ${names[kind]} after --${kind}.`,
    );
  const text = readTextFile(path);
  const other = companionKind(text);
  if (other !== null && other !== kind)
    throw new FileError(
      path,
      'is-another-file',
      `looks like ${names[other]}, not like ${names[kind]}`,
      `Give it with --${other}.`,
    );
  return text;
}

/** What to say of a file that was given as a ride and is none, but goes with rides; null where it looks like neither kind. */
export function notARide(path: string): FileError | null {
  const start = fileBeginning(path);
  let kind: CompanionKind | null;
  try {
    kind = companionKind(textDecoder(path, start).decode(start));
  } catch {
    return null;
  }
  return (
    kind &&
    new FileError(path, 'not-a-ride', `looks like ${names[kind]}, not like a ride`, `Give it with --${kind} ${path}.`)
  );
}

import { InvalidArgumentError } from 'commander';

/**
 * Reads an option or argument that names a file, a folder or an address. An empty one, as an unset variable of the shell leaves it, would
 * pass for the folder in which the program was started.
 *
 * @throws InvalidArgumentError for an empty text or one of blanks
 */
export function nonEmpty(text: string): string {
  if (text.trim() === '') throw new InvalidArgumentError('It is empty and names nothing: name one, or leave it out.');
  return text;
}

/** The same for an argument that may be given many times: `before` holds those read so far. */
export const eachNonEmpty = (text: string, before: readonly string[] = []): string[] => [...before, nonEmpty(text)];

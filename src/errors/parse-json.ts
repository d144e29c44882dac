import { FileError } from './file-error.ts';

/**
 * Parses a JSON file, a leading byte-order mark allowed.
 *
 * @throws FileError `not-json`, with the line and column where reading stopped, or that the file is empty
 */
export function parseJson(file: string, text: string): unknown {
  const body = text.replace(/^\uFEFF/, '');
  if (body.trim() === '')
    throw new FileError(file, 'not-json', 'is empty', 'Write in it what belongs there, or give another file.');
  try {
    return JSON.parse(body);
  } catch {
    throw new FileError(
      file,
      'not-json',
      `is not valid JSON${placeOf(body)}`,
      'Look for a missing comma, quote or bracket there.',
    );
  }
}

/** The engine's message names a position only at times, so look for the longest beginning that could still become JSON. */
function placeOf(text: string): string {
  let good = 0;
  let bad = text.length + 1;
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (couldGoOn(text.slice(0, middle))) good = middle;
    else bad = middle;
  }
  const before = text.slice(0, good).split('\n');
  return ` (reading stopped at line ${before.length}, column ${before[before.length - 1].length + 1})`;
}

function couldGoOn(beginning: string): boolean {
  try {
    JSON.parse(beginning);
    return true;
  } catch (error) {
    const message = (error as Error).message;
    const position = /at position (\d+)/.exec(message);
    return (
      /end of JSON|Unterminated string/.test(message) || (position !== null && Number(position[1]) >= beginning.length)
    );
  }
}

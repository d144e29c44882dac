/** Longest line of a CSV ride, characters. Beyond it a file is no ride, and a million columns cost no memory. */
export const LONGEST_LINE = 1 << 16;
const DELIMITERS = [',', ';', '\t'] as const;

/** The delimiter of a CSV text: whichever of comma, semicolon and tab stands most often in its first line; comma where none does. */
export function csvDelimiter(text: string): string {
  const firstLine = (/^\s*([^\r\n]*)/.exec(text)?.[1] ?? '').slice(0, LONGEST_LINE);
  const counts = DELIMITERS.map((delimiter) => firstLine.split(delimiter).length);
  return DELIMITERS[counts.indexOf(Math.max(...counts))];
}

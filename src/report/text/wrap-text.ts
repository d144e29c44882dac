/**
 * Breaks text at spaces into lines of at most `width` characters, but never between a number and its percent sign. A
 * single longer word stands on its own line.
 *
 * @param first what the first line starts with, for example a bullet; the further lines start with as many spaces
 */
export function wrapText(text: string, width: number, first = ''): string {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(/\s+(?!%)/).filter(Boolean)) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = ' '.repeat(first.length);
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  lines.push(line);
  return lines.join('\n');
}

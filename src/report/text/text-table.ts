/** A column of a text table. */
export interface TextColumn {
  readonly title: string;
  readonly align: 'left' | 'right';
}

/** Lines of a table with aligned columns, two spaces apart, a rule under the titles. No line ends in spaces. */
export function textTable(columns: readonly TextColumn[], rows: readonly (readonly string[])[], indent = 2): string[] {
  const widths = columns.map((column, i) => Math.max(column.title.length, ...rows.map((row) => row[i].length)));
  const line = (cells: readonly string[]): string =>
    (
      ' '.repeat(indent) +
      cells
        .map((cell, i) => (columns[i].align === 'right' ? cell.padStart(widths[i]) : cell.padEnd(widths[i])))
        .join('  ')
    ).trimEnd();
  return [
    line(columns.map((column) => column.title)),
    line(widths.map((width) => '-'.repeat(width))),
    ...rows.map(line),
  ];
}

/** Shortens to `width` characters by leaving out the beginning: the end of a path tells more. */
export function keepEnd(text: string, width: number): string {
  return text.length <= width ? text : `...${text.slice(text.length - width + 3)}`;
}

/** The columns of the contract. */
export const CSV_COLUMNS = [
  'time',
  'time_s',
  'speed_mps',
  'cadence_rpm',
  'power_w',
  'distance_m',
  'front_teeth',
  'rear_teeth',
] as const;
/** One of `CSV_COLUMNS`. */
export type CsvColumn = (typeof CSV_COLUMNS)[number];

/** Where each known column stands in a header line, and what else the line holds. */
export interface CsvHeader {
  readonly at: ReadonlyMap<CsvColumn, number>;
  readonly unknown: readonly string[];
  /** Known columns that stand there more than once. */
  readonly repeated: readonly CsvColumn[];
  /** Cells of the line. */
  readonly cells: number;
}

const isKnown = (name: string): name is CsvColumn => (CSV_COLUMNS as readonly string[]).includes(name);

/** Reads a header line. Case and blanks do not matter; of two columns of one name the first counts. */
export function csvHeader(cells: readonly string[]): CsvHeader {
  const at = new Map<CsvColumn, number>();
  const unknown: string[] = [];
  const repeated = new Set<CsvColumn>();
  cells.forEach((cell, i) => {
    const name = cell.trim().toLowerCase();
    if (isKnown(name)) {
      if (at.has(name)) repeated.add(name);
      else at.set(name, i);
    } else if (name !== '') unknown.push(cell.trim());
  });
  return { at, unknown, repeated: [...repeated], cells: cells.length };
}

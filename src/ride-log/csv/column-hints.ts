import type { CsvColumn } from './csv-columns.ts';

interface ColumnHint {
  /** Names that are meant, in lower case, with anything but letters and digits as `_`. */
  readonly names: RegExp;
  readonly column: CsvColumn;
  /** What must be done to the values; empty where only the name is another. */
  readonly convert: string;
}

/** The first that fits counts. */
const hints: readonly ColumnHint[] = [
  { names: /(speed|velocity).*(km_?h|kph|kmph)/, column: 'speed_mps', convert: 'divide by 3.6' },
  { names: /(speed|velocity).*mph/, column: 'speed_mps', convert: 'divide by 2.237' },
  { names: /(speed|velocity)/, column: 'speed_mps', convert: 'metres a second' },
  { names: /cadence.*rps/, column: 'cadence_rpm', convert: 'multiply by 60' },
  { names: /cadence/, column: 'cadence_rpm', convert: 'turns a minute' },
  { names: /(power|watt)/, column: 'power_w', convert: 'watts' },
  { names: /distance.*km/, column: 'distance_m', convert: 'multiply by 1000' },
  { names: /distance/, column: 'distance_m', convert: 'metres' },
  { names: /^front/, column: 'front_teeth', convert: 'the teeth of the chainring' },
  { names: /^rear/, column: 'rear_teeth', convert: 'the teeth of the cog' },
  { names: /^(time|elapsed)\w*_(ms|millis\w*)$/, column: 'time_s', convert: 'divide by 1000' },
  { names: /^(seconds|secs?|elapsed\w*)$/, column: 'time_s', convert: 'seconds' },
  { names: /^(time|date)/, column: 'time', convert: 'as 2026-06-01T08:00:00Z' },
];

/** A ride needs one column of time, whichever. */
const asOneTime = (column: CsvColumn): CsvColumn => (column === 'time_s' ? 'time' : column);

/** So many are named. */
const MOST_NAMED = 5;

/**
 * What unknown columns were probably meant to be, where the file holds no such column; empty where nothing is like one.
 *
 * @param unknown names as they stand in the header line
 * @param known columns that the file holds
 * @example columnHints(['speed_kmh'], ['time']) // 'Rename speed_kmh to speed_mps (divide by 3.6).'
 */
export function columnHints(unknown: readonly string[], known: readonly CsvColumn[]): string {
  const taken = new Set(known.map(asOneTime));
  const meant = unknown.flatMap((name) => {
    const plain = name.toLowerCase().replace(/[^a-z0-9]+/g, '_');
    const hint = hints.find(({ names }) => names.test(plain));
    if (!hint || taken.has(asOneTime(hint.column))) return [];
    taken.add(asOneTime(hint.column));
    return [`${name.slice(0, 40)} to ${hint.column} (${hint.convert})`];
  });
  return meant.length === 0 ? '' : `Rename ${meant.slice(0, MOST_NAMED).join(', ')}.`;
}

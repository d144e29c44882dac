import { FileError } from '../errors/file-error.ts';
import { parseJson } from '../errors/parse-json.ts';
import { schemaIssueWords } from '../errors/schema-issue-words.ts';
import { type Adjustment, adjustmentSchema, replacedParts } from './adjustment.ts';
import type { AdjustmentEntry } from './adjustment-entry.ts';
import { badAdjustments } from './bad-adjustments.ts';
import { inOrderOfTime } from './in-order-of-time.ts';
import { adjustmentColumns, readAdjustmentTable } from './read-adjustment-table.ts';

/**
 * Reads an adjustments file: CSV with a header line, or a JSON list with the same keys, told apart by content.
 * An empty `unit` means `done` where the parameter is a part that is aligned or replaced.
 *
 * @param file its name, for messages only
 * @returns the adjustments sorted by time; an empty list where the file holds a header only
 * @throws FileError `not-json`, `bad-csv` or `bad-adjustments`; the message names line (or entry), column, what stands
 *   there and what is allowed
 */
export function parseAdjustments(file: string, text: string): Adjustment[] {
  const body = text.replace(/^\uFEFF/, '');
  if (body.trim() === '')
    throw new FileError(file, 'bad-adjustments', 'is empty', `Start it with the line ${adjustmentColumns.join(',')}.`);
  const entries = /^\s*[[{]/.test(body) ? jsonEntries(file, body) : readAdjustmentTable(file, body);
  const clauses: string[] = [];
  const adjustments: Adjustment[] = [];
  for (const entry of entries) {
    const fields = withDefaultUnit(entry.fields);
    const result = adjustmentSchema.safeParse(fields);
    if (result.success) adjustments.push(result.data);
    else
      for (const issue of result.error.issues) {
        const words = schemaIssueWords(issue, fields, adjustmentColumns);
        clauses.push(
          `${entry.place}, ${entry.cell} ${words.key}: ${words.found.replace(/^is (?!missing|empty)/, 'found ')}, ${words.allowed}`,
        );
      }
  }
  if (clauses.length > 0) throw badAdjustments(file, clauses);
  return inOrderOfTime(adjustments);
}

function jsonEntries(file: string, text: string): AdjustmentEntry[] {
  const list = parseJson(file, text);
  if (!Array.isArray(list))
    throw new FileError(
      file,
      'bad-adjustments',
      'holds no list of adjustments',
      `Write a JSON list of objects with the keys ${adjustmentColumns.join(', ')}.`,
    );
  return list.map((item: unknown, i) => {
    const place = `entry ${i + 1}`;
    const keys = item !== null && typeof item === 'object' && !Array.isArray(item) ? Object.keys(item) : null;
    const unknown = keys?.find((key) => !adjustmentColumns.includes(key));
    if (keys === null || unknown !== undefined)
      throw new FileError(
        file,
        'bad-adjustments',
        `${place} ${keys === null ? 'is no object' : `holds the unknown key "${unknown}"`}`,
        `Allowed keys are ${adjustmentColumns.join(', ')}.`,
      );
    return { place, cell: 'key', fields: item as Record<string, unknown> };
  });
}

function withDefaultUnit(fields: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const replaced = (replacedParts as readonly unknown[]).includes(fields.parameter);
  const empty = fields.unit === undefined || fields.unit === null || fields.unit === '';
  return replaced && empty ? { ...fields, unit: 'done' } : fields;
}

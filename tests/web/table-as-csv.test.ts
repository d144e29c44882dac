import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { tableAsCsv } from '../../web/charts/table-as-csv.ts';

describe('tableAsCsv', () => {
  it('is read back by a CSV reader as it was', () => {
    const text = tableAsCsv({
      columns: ['name, long', 'value'],
      rows: [
        ['say "hello"', 1.5],
        ['two\nlines', null],
      ],
    });
    expect(parse(text)).toEqual([
      ['name, long', 'value'],
      ['say "hello"', '1.5'],
      ['two\nlines', ''],
    ]);
  });

  it('keeps a spreadsheet from taking text for a formula, and leaves negative numbers alone', () => {
    expect(tableAsCsv({ columns: ['note', 'mm'], rows: [['=1+1', -0.4]] })).toBe("note,mm\r\n'=1+1,-0.4\r\n");
  });
});

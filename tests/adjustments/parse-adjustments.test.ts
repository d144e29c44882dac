import { describe, expect, it } from 'vitest';
import { inUtc } from '../../src/adjustments/in-utc.ts';
import { parseAdjustments } from '../../src/adjustments/parse-adjustments.ts';

const header = 'at,parameter,amount,unit,note';
const first = '2026-04-12T18:30:00Z,cable-tension,2,clicks,after the hut ride';
const refusal = (text: string): string => {
  try {
    parseAdjustments('a.csv', text);
  } catch (error) {
    return (error as Error).message;
  }
  return 'accepted';
};

describe('parseAdjustments', () => {
  it('reads the CSV of the README', () => {
    expect(parseAdjustments('a.csv', `${header}\n${first}\n`)).toEqual([
      { at: '2026-04-12T18:30:00Z', parameter: 'cable-tension', amount: 2, unit: 'clicks', note: 'after the hut ride' },
    ]);
  });

  it('reads the same as JSON', () => {
    const json = JSON.stringify([
      { at: '2026-04-12T18:30:00Z', parameter: 'cable-tension', amount: 2, unit: 'clicks', note: 'after the hut ride' },
    ]);
    expect(parseAdjustments('a.json', json)).toEqual(parseAdjustments('a.csv', `${header}\n${first}`));
  });

  it('sorts by time, whatever the offset', () => {
    const rows = ['2026-04-12T20:30:00+02:00,chain,,,', '2026-04-12T18:00:00Z,hanger,,done,'];
    expect(parseAdjustments('a.csv', [header, ...rows].join('\n')).map((row) => row.parameter)).toEqual([
      'hanger',
      'chain',
    ]);
  });

  it('writes every time in UTC, so that its day and its order can be read off its text', () => {
    const rows = ['2026-05-04T00:30:00+02:00,chain,,,', '2026-05-04T00:30:00Z,hanger,,done,'];
    expect(parseAdjustments('a.csv', [header, ...rows].join('\n')).map((row) => row.at)).toEqual([
      '2026-05-03T22:30:00Z',
      '2026-05-04T00:30:00Z',
    ]);
    expect(inUtc('0000-01-01T00:30:00+02:00')).toBe('0000-01-01T00:30:00+02:00');
  });

  it('takes a time without seconds', () => {
    const rows = ['2026-06-01T11:00Z,chain,,,', '2026-06-01T14:30+02:00,hanger,,done,'];
    expect(parseAdjustments('a.csv', [header, ...rows].join('\n')).map((row) => row.at)).toEqual([
      '2026-06-01T11:00:00Z',
      '2026-06-01T12:30:00Z',
    ]);
  });

  it('passes over rows of empty cells, as spreadsheets leave them', () => {
    expect(parseAdjustments('a.csv', `${header}\n,,,,\n${first}\n,,,,\n,\n`)).toHaveLength(1);
  });

  it('reads an amount with an exponent as JSON does', () => {
    expect(parseAdjustments('a.csv', `${header}\n${first.replace(',2,', ',25e-1,')}`)[0].amount).toBe(2.5);
    expect(refusal(`${header}\n${first.replace(',2,', ',1e9,')}`)).toContain('must be at most 100');
  });

  it.each(['2026-02-30T18:30:00Z', '2026-02-10T25:05Z', '2026-13-01T10:00:00+02:00'])(
    'says of %s that there is no such time, not that it is badly written',
    (at) => {
      expect(refusal(`${header}\n${at},chain,,,`)).toContain('there is no such day or hour');
    },
  );

  it('takes an empty unit of a replaced part as done', () => {
    expect(parseAdjustments('a.csv', `at,parameter\n2026-04-12T18:30:00Z,chain`)[0]).toMatchObject({
      amount: null,
      unit: 'done',
      note: '',
    });
    expect(parseAdjustments('a.json', '[{"at":"2026-04-12T18:30:00Z","parameter":"wheel","unit":""}]')[0].unit).toBe(
      'done',
    );
  });

  it('takes semicolons with a decimal comma, tabs, quotes, a byte-order mark and CR LF', () => {
    const amounts = [
      'at;parameter;amount;unit\r\n2026-04-12T18:30:00Z;low-limit;-0,25;turns\r\n',
      'at\tparameter\tamount\tunit\n2026-04-12T18:30:00Z\tlow-limit\t-0.25\tturns',
      `\uFEFF${header}\n2026-04-12T18:30:00Z,low-limit,-0.25,turns,"a, b; ""c"""`,
    ].map((text) => parseAdjustments('a.csv', text)[0].amount);
    expect(amounts).toEqual([-0.25, -0.25, -0.25]);
  });

  it('takes a comma in a note without quotes, and empty cells behind it, but nowhere else', () => {
    const note = (row: string, columns = header): string | undefined =>
      parseAdjustments('a.csv', `${columns}\n2026-04-12T18:30:00Z,${row}`)[0].note;
    expect(note('chain,,,one end better, the other worse')).toBe('one end better, the other worse');
    expect(note('chain,,,new,,')).toBe('new');
    expect(refusal('at,note,parameter\n2026-04-12T18:30:00Z,a, b,chain')).toContain(
      'line 2 has more or fewer cells than the header line',
    );
  });

  it('gives an empty list for a header alone', () => {
    expect(parseAdjustments('a.csv', `${header}\n`)).toEqual([]);
    expect(parseAdjustments('a.json', '[]')).toEqual([]);
  });

  it.each([
    ['', 'a.csv: is empty'],
    [
      `${header}\n2026-04-12T18:30:00Z,cable-tension,two,clicks,`,
      'line 2, column amount: found "two", must be a number',
    ],
    [`${header}\n${first}\n2026-04-12,chain,,,`, 'line 3, column at: found "2026-04-12", must be an ISO 8601 time'],
    [`${header}\n2026-04-12T18:30:00,chain,,,`, 'line 2, column at'],
    [
      `${header}\n2026-04-12T18:30:00Z,cable,2,clicks,`,
      'line 2, column parameter: found "cable", must be one of cable-tension',
    ],
    [
      `${header}\n2026-04-12T18:30:00Z,cable-tension,2,turns,`,
      'column unit: found "turns", cable-tension is counted in clicks',
    ],
    [
      `${header}\n2026-04-12T18:30:00Z,cable-tension,2,,`,
      'column unit: is missing, cable-tension is counted in clicks',
    ],
    [
      `${header}\n2026-04-12T18:30:00Z,cable-tension,,clicks,`,
      'column amount: is missing, cable-tension needs an amount in clicks',
    ],
    [`${header}\n2026-04-12T18:30:00Z,chain,1,done,`, 'column amount: found 1, chain is done or not'],
    [`${header}\n2026-04-12T18:30:00Z,low-limit,500,turns,`, 'column amount: found 500, must be at most 100'],
    [`${header}\n2026-04-12T18:30:00Z,chain`, 'line 2 has more or fewer cells than the header line'],
    [
      `${header}\n2026-04-12T18:30:00Z,chain,,,"open`,
      'opens a quote that is never closed. Put the whole note in double quotes and write each double quote within it twice',
    ],
    [
      `${header}\n${first}\n2026-04-12T18:30:00Z,cable-tension,2,clicks,half an inch 2" up`,
      'line 3 holds a double quote within a cell that does not begin with one. Put the whole note in double quotes and write each double quote within it twice',
    ],
    [`${header}\n2026-04-12T18:30:00Z,chain,,,"open" end`, 'line 2 goes on behind the double quote that ends a cell'],
    [`at,paramter\n`, 'lacks "parameter"; the header line holds the unknown column "paramter", perhaps "parameter"'],
    ['at,at,parameter\n', 'holds "at" twice'],
    ['{"at": "2026"}', 'holds no list of adjustments'],
    ['[1]', 'entry 1 is no object'],
    ['[{"at":"2026-04-12T18:30:00Z","paramter":"chain"}]', 'entry 1 holds the unknown key "paramter"'],
    [
      '[{"at":"2026-04-12T18:30:00Z","parameter":"low-limit","amount":"1","unit":"turns"}]',
      'entry 1, key amount: found "1", must be a number',
    ],
    ['[{]', 'is not valid JSON'],
  ])('%j is refused in words', (text, words) => {
    expect(refusal(text)).toContain(words);
  });

  it('names many faults but not without end', () => {
    const rows = Array.from({ length: 30 }, () => 'yesterday,chain,,,');
    expect(refusal([header, ...rows].join('\n'))).toMatch(/line 2.*line 9.*and 22 more/);
  });
});

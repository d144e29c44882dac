import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { RideReport } from '../../web/api/answers.ts';
import { gatherRemarks } from '../../web/bike/ride-remarks.ts';
import { doubting } from '../../web/words/ride-doubts.ts';

const withRemarks = (file: string, ...remarks: [string, string][]): RideReport =>
  ({ file, warnings: remarks.map(([code, message]) => ({ code, message })) }) as unknown as RideReport;
const ride = (file: string, ...codes: string[]): RideReport =>
  withRemarks(file, ...codes.map((code): [string, string] => [code, code]));

it('gathers what puts rides in doubt by its kind, with the newest ride, and leaves out how files were read', () => {
  const rides = [
    ride('a', 'another-bike', 'repeated-time'),
    ride('b', 'no-speed'),
    ride('c', 'another-bike', 'teeth-differ'),
    ride('d', 'more-gears-than-bike', 'unknown-columns'),
  ];
  expect(gatherRemarks(rides)).toEqual([
    { message: 'another-bike', ride: rides[2], others: 1, further: 0 },
    { message: 'no-speed', ride: rides[1], others: 0, further: 0 },
    { message: 'teeth-differ', ride: rides[2], others: 0, further: 0 },
    { message: 'more-gears-than-bike', ride: rides[3], others: 0, further: 0 },
  ]);
});

it('keeps the figure of each ride, of the newest rides where there are many', () => {
  const short = (file: string, seconds: number): RideReport =>
    withRemarks(file, ['no-gear-bands', `Only ${seconds} s.`]);
  const rides = [
    short('a', 1),
    short('b', 2),
    short('c', 3),
    short('d', 0),
    short('e', 3),
    short('f', 0),
    short('g', 9),
  ];
  expect(gatherRemarks(rides)).toEqual([
    { message: 'Only 9 s.', ride: rides[6], others: 0, further: 0 },
    { message: 'Only 0 s.', ride: rides[5], others: 1, further: 0 },
    { message: 'Only 3 s.', ride: rides[4], others: 1, further: 2 },
  ]);
});

it('knows no remark by a code that the engine and the server do not give', () => {
  const files = ['src', 'server'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .map((file) => join(folder, file)),
  );
  const sources = files.map((file) => readFileSync(file, 'utf8')).join('\n');
  const given = (code: string): boolean => new RegExp(`(code: |export const \\w+ = )'${code}'`).test(sources);
  expect([...doubting].filter((code) => !given(code))).toEqual([]);
  expect(given('no-such-code')).toBe(false);
});

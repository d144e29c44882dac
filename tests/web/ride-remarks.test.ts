import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { RideReport } from '../../web/api/answers.ts';
import { gatherRemarks } from '../../web/bike/ride-remarks.ts';
import { doubting } from '../../web/words/ride-doubts.ts';

const ride = (file: string, ...codes: string[]): RideReport =>
  ({ file, warnings: codes.map((code) => ({ code, message: `${code} of ${file}` })) }) as unknown as RideReport;

it('gathers what puts rides in doubt by its kind, with the newest ride, and leaves out how files were read', () => {
  const rides = [
    ride('a', 'another-bike', 'repeated-time'),
    ride('b', 'no-speed'),
    ride('c', 'another-bike', 'teeth-differ'),
    ride('d', 'more-gears-than-bike', 'unknown-columns'),
  ];
  expect(gatherRemarks(rides)).toEqual([
    { message: 'another-bike of c', ride: rides[2], others: 1 },
    { message: 'no-speed of b', ride: rides[1], others: 0 },
    { message: 'teeth-differ of c', ride: rides[2], others: 0 },
    { message: 'more-gears-than-bike of d', ride: rides[3], others: 0 },
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

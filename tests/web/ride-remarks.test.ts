import { expect, it } from 'vitest';
import type { RideReport } from '../../web/api/answers.ts';
import { gatherRemarks } from '../../web/bike/ride-remarks.ts';

const ride = (file: string, ...codes: string[]): RideReport =>
  ({ file, warnings: codes.map((code) => ({ code, message: `${code} of ${file}` })) }) as unknown as RideReport;

it('gathers what puts rides in doubt by its kind, with the newest ride, and leaves out how files were read', () => {
  const rides = [
    ride('a', 'another-bike', 'repeated-time'),
    ride('b', 'no-speed'),
    ride('c', 'another-bike', 'teeth-differ'),
    ride('d', 'unknown-columns'),
  ];
  expect(gatherRemarks(rides)).toEqual([
    { message: 'another-bike of c', ride: rides[2], others: 1 },
    { message: 'no-speed of b', ride: rides[1], others: 0 },
    { message: 'teeth-differ of c', ride: rides[2], others: 0 },
  ]);
});

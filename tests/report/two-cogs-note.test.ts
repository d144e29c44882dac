import { expect, it } from 'vitest';
import { twoCogsOneCount } from '../../src/gear-trace/disagreement/two-cogs-one-count.ts';
import { twoCogsNote } from '../../src/report/two-cogs-note.ts';

const told = (code: string, message: string) => ({ warnings: [{ code, message }] });

it('stands beside the verdict once, as the newest ride tells it', () => {
  const rides = [
    told(twoCogsOneCount, 'the 28 and the 33'),
    told('sparse-records', 'far apart'),
    told(twoCogsOneCount, 'the 33 and the 39'),
    { warnings: [] },
  ];
  expect(twoCogsNote(rides)).toEqual(['the 33 and the 39']);
  expect(twoCogsNote([told('sparse-records', 'far apart')])).toEqual([]);
});

import { expect, it } from 'vitest';
import { setAsideWords } from '../../web/words/set-aside-words.ts';
import { bikesTable } from '../../web/workshop/bikes-table.ts';

const set = (on: string | null, note: string) => ({ workshopMark: { on, note } });

it('says that a bike is set aside, since when and why, as far as that was told', () => {
  expect(setAsideWords(set('2026-05-03', 'Rear brake rubs'))).toBe(
    'Set aside for the workshop since 3 May 2026: Rear brake rubs',
  );
  expect(setAsideWords(set('2026-05-03', ''))).toBe('Set aside for the workshop since 3 May 2026');
  expect(setAsideWords(set(null, ''))).toBe('Set aside for the workshop');
  expect(setAsideWords({ workshopMark: null })).toBeNull();
});

it('is saved with the list of bikes', () => {
  const bike = (mark: object) => ({
    ...{ id: 'b', rides: 1, work: null, staleReason: null, lastRideAt: null, ...mark },
    bike: { name: 'B', chainrings: [32], cassette: [10, 12], actuation: 'cable' },
    state: { word: 'fine', dangers: [], reasons: [], low: 0, high: 1, judgedShifts: 20, troubleRate: 0 },
  });
  const { columns, rows } = bikesTable([bike(set('2026-05-03', 'Brake')), bike({ workshopMark: null })] as never);
  const from = columns.indexOf('set aside');
  expect(rows.map((row) => row.slice(from, from + 3))).toEqual([
    ['yes', '2026-05-03', 'Brake'],
    [null, null, null],
  ]);
});

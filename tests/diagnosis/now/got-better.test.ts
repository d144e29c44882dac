import { expect, it } from 'vitest';
import { gotBetterWith } from '../../../src/diagnosis/now/got-better.ts';
import { type Turn, turned } from './adjusted-bikes.ts';

const made = (day: number, turn: Turn, probabilityBetter: number) => ({
  ...turned(day, turn),
  ...{ group: day, probabilityBetter },
});
const until = '2026-05-20T00:00:00.000Z';

it('names what made shifting better for sure, whether or not it is the usual cure, and whether it was done last', () => {
  const hanger = made(1, ['hanger', null], 0.99);
  const clicks = made(5, ['cable-tension', 2], 0.6);
  const words = 'what was done on 2026-05-02 (derailleur hanger aligned or replaced)';
  expect(gotBetterWith([hanger], 'cable-tension-low', until)).toEqual({
    words,
    usualCure: false,
    wrongWay: false,
    last: true,
  });
  expect(gotBetterWith([hanger, clicks], 'hanger-bent', until)).toEqual({
    words,
    usualCure: true,
    wrongWay: false,
    last: false,
  });
  expect(gotBetterWith([hanger, clicks], 'hanger-bent', '2026-05-03T00:00:00.000Z')?.last).toBe(true);
});

it('is nothing where none helped for sure, or what did came later or was taken back at once', () => {
  const clicks = made(5, ['cable-tension', 2], 0.99);
  expect(gotBetterWith([{ ...clicks, probabilityBetter: 0.6 }], 'cable-tension-low', until)).toBeNull();
  expect(gotBetterWith([clicks], 'cable-tension-low', '2026-05-03T00:00:00.000Z')).toBeNull();
  expect(gotBetterWith([{ ...clicks, cancelledOut: true }], 'cable-tension-low', until)).toBeNull();
});

it('goes by the sign of a turn', () => {
  const of = (amount: number) => gotBetterWith([made(5, ['cable-tension', amount], 0.99)], 'cable-tension-low', until);
  expect(of(2)).toMatchObject({ usualCure: true, wrongWay: false });
  expect(of(-2)).toMatchObject({ usualCure: false, wrongWay: true });
});

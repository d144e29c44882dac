import { afterEach, beforeEach, expect, it } from 'vitest';
import { findBike, improveGuess, insertBike, replaceBike, type StoredBike } from '../../server/store/bike-store.ts';
import type { Sql } from '../../server/store/sql.ts';
import { hutBike, valleyBike } from './made-rides.ts';
import { testStore } from './test-store.ts';

let store: Awaited<ReturnType<typeof testStore>>;
let sql: Sql;
beforeEach(async () => {
  store = await testStore();
  sql = store.sql;
});
afterEach(() => store.remove());

const stored = (id: string): StoredBike => findBike(sql, id) as StoredBike;
const better = { bike: valleyBike, notes: [], certainty: 0.9 };

it('a better guess takes the place of a guess under the name that the bike has', () => {
  const id = insertBike(sql, hutBike, 'guessed', { certainty: 0.5 });
  improveGuess(sql, id, better);
  expect(stored(id)).toMatchObject({
    bike: { ...valleyBike, name: hutBike.name },
    source: 'guessed',
    certainty: 0.9,
    drivetrainVersion: 2,
  });
});

it('but never that of a bike which its rider wrote down meanwhile', () => {
  const id = insertBike(sql, hutBike, 'guessed', { certainty: 0.5 });
  replaceBike(sql, stored(id), hutBike);
  const written = stored(id);
  improveGuess(sql, id, better);
  expect(stored(id)).toEqual(written);
  expect(written).toMatchObject({ bike: hutBike, source: 'given', certainty: null });
  // nor does it make a bike that is gone
  improveGuess(sql, 'no-such-bike', better);
  expect(findBike(sql, 'no-such-bike')).toBeUndefined();
});

it('a new name alone has no ride analysed again, another drivetrain does', () => {
  const id = insertBike(sql, hutBike, 'given');
  const { actuation, ...rest } = hutBike;
  // the order of the keys says nothing of the bike
  replaceBike(sql, stored(id), { actuation, ...rest, name: 'Dotterel' });
  expect(stored(id)).toMatchObject({ bike: { name: 'Dotterel' }, drivetrainVersion: 1, revision: 2 });
  replaceBike(sql, stored(id), { ...hutBike, rolloutMm: 2181 });
  expect(stored(id)).toMatchObject({ drivetrainVersion: 2, revision: 3 });
});

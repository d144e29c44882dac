import { expect, it } from 'vitest';
import { archivedBikesShape } from '../../server/archive/archive-shapes.ts';
import { findBike, insertBike } from '../../server/store/bike-store.ts';
import { openDatabase } from '../../server/store/open-database.ts';
import { hutBike } from './made-rides.ts';
import { temporaryFolder } from './test-server.ts';

const blank = { ...hutBike, name: '   ' };
const named = { ...hutBike, name: 'bike without a name' };

it('a stored bike whose name is blanks alone keeps its drivetrain and can be seen', async () => {
  const folder = temporaryFolder();
  const sql = await openDatabase(`${folder.path}/a.sqlite`, { backup: folder.path });
  const id = insertBike(sql, blank, 'given');
  expect(findBike(sql, id)).toMatchObject({ bike: named, readable: true });
  sql.database.close();
  folder.remove();
});

it('one in an archive is taken in likewise', () => {
  const [{ bike }] = archivedBikesShape.parse([
    { id: '0000000000000001', bike: blank, source: 'given', adjustments: [] },
  ]);
  expect(bike).toEqual(named);
});

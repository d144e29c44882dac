import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { RawStore } from '../../server/raw/raw-store.ts';
import { deleteBike, insertBike, listBikes } from '../../server/store/bike-store.ts';
import { openDatabase } from '../../server/store/open-database.ts';
import { deleteRide, findRide, placeRide } from '../../server/store/ride-store.ts';
import type { Sql } from '../../server/store/sql.ts';
import { unplacedRides } from '../../server/store/work-store.ts';
import { type Change, ChangeHub } from '../../server/work/change-hub.ts';
import { placeNextRides } from '../../server/work/place-next-rides.ts';
import type { PlaceAnswer } from '../../server/work/tasks.ts';
import type { WorkerPool } from '../../server/work/worker-pool.ts';
import { hutBike, valleyBike } from './made-rides.ts';
import { registerRide } from './register-ride.ts';
import { temporaryFolder } from './test-server.ts';

let folder: ReturnType<typeof temporaryFolder>;
let sql: Sql;
beforeEach(async () => {
  folder = temporaryFolder();
  sql = await openDatabase(join(folder.path, 'cogwright.sqlite'), { backup: folder.path });
});
afterEach(() => {
  sql.database.close();
  folder.remove();
});

/** Places what waits while `meanwhile` happens, and gives what was told of it. */
async function place(answer: PlaceAnswer, meanwhile: () => void): Promise<Change[]> {
  const told: Change[] = [];
  const hub = new ChangeHub();
  hub.listen((change) => told.push(change));
  const run = async (): Promise<PlaceAnswer> => {
    meanwhile();
    return answer;
  };
  const bench = { sql, raw: new RawStore(folder.path), database: '', hub, log: pino({ enabled: false }) };
  await placeNextRides({ ...bench, pool: { run } as unknown as WorkerPool }, unplacedRides(sql));
  return told;
}

const guessed: PlaceAnswer = { fault: null, bikeId: null, guess: { bike: valleyBike, notes: [] } };

it('a ride that is moved onto a bike while its own is looked for stays there', async () => {
  const bikeId = insertBike(sql, hutBike, 'given');
  const rideId = registerRide(sql);
  const told = await place(guessed, () => placeRide(sql, rideId, bikeId));
  expect([findRide(sql, rideId)?.bikeId, listBikes(sql).length, told]).toEqual([bikeId, 1, []]);
});

it('a ride that is removed while its bike is looked for leaves no bike without rides', async () => {
  const rideId = registerRide(sql);
  const told = await place(guessed, () => deleteRide(sql, rideId));
  expect([listBikes(sql), told]).toEqual([[], []]);
});

it('a ride whose bike is removed while it is looked for waits and did not fail', async () => {
  const bikeId = insertBike(sql, hutBike, 'given');
  const rideId = registerRide(sql);
  const told = await place({ fault: null, bikeId, guess: null }, () => deleteBike(sql, bikeId));
  expect([findRide(sql, rideId), told]).toMatchObject([{ bikeId: null, status: 'queued' }, []]);
});

it('a ride for which a bike is found or none can be is told of', async () => {
  const rideId = registerRide(sql);
  const fault = { code: 'no-records', message: 'ride.csv: holds no ride records.' };
  expect(await place({ fault }, () => {})).toMatchObject([{ rideId, status: 'failed', bikeId: null }]);
  expect(findRide(sql, rideId)).toMatchObject({ status: 'failed', error: fault });
  const other = registerRide(sql);
  expect(await place(guessed, () => {})).toMatchObject([{ rideId: other, status: 'queued' }]);
  expect(findRide(sql, other)?.bikeId).toBe(listBikes(sql)[0].id);
});

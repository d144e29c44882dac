import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { RawStore } from '../../server/raw/raw-store.ts';
import { deleteBike, insertBike, listBikes } from '../../server/store/bike-store.ts';
import { deleteRide, findRide, placeRide } from '../../server/store/ride-store.ts';
import type { Sql } from '../../server/store/sql.ts';
import { insertUpload } from '../../server/store/upload-store.ts';
import { unplacedRides } from '../../server/store/work-store.ts';
import { type Change, ChangeHub } from '../../server/work/change-hub.ts';
import { placeNextRides } from '../../server/work/place-next-rides.ts';
import { placeRides } from '../../server/work/place-rides.ts';
import type { PlaceAnswer, PlaceTask } from '../../server/work/tasks.ts';
import type { WorkerPool } from '../../server/work/worker-pool.ts';
import { hutBike, madeRides, valleyBike } from './made-rides.ts';
import { registerRide } from './register-ride.ts';
import { testStore } from './test-store.ts';

let store: Awaited<ReturnType<typeof testStore>>;
let sql: Sql;
beforeEach(async () => {
  store = await testStore();
  sql = store.sql;
});
afterEach(() => store.remove());

/** Places what waits while `meanwhile` happens, and gives what was told of it. */
async function place(
  answer: PlaceAnswer,
  meanwhile: (task: PlaceTask) => void,
  has = (_sha256: string) => true,
): Promise<Change[]> {
  const told: Change[] = [];
  const hub = new ChangeHub();
  hub.listen((change) => told.push(change));
  const run = async (_name: string, task: PlaceTask): Promise<PlaceAnswer> => {
    meanwhile(task);
    return answer;
  };
  const raw = { has, path: (sha256: string) => sha256 } as unknown as RawStore;
  const bench = { sql, raw, database: '', hub, log: pino({ enabled: false }) };
  await placeNextRides({ ...bench, pool: { run } as unknown as WorkerPool }, unplacedRides(sql));
  return told;
}

const guessed: PlaceAnswer = { fault: null, bikeId: null, guess: { bike: valleyBike, notes: [], certainty: 0.5 } };

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

it('a new bike is guessed from the four longest rides of its upload, and all of them are put on it', async () => {
  const upload_id = insertUpload(sql, 'new');
  const lengths = [300, 60, 500, 200, 400, 100];
  const ids = lengths.map((duration_s) => registerRide(sql, null, { upload_id, duration_s, file: `${duration_s}` }));
  let asked: PlaceTask | undefined;
  await place(guessed, (task) => {
    asked = task;
  });
  expect(asked?.rides.map(({ file }) => file)).toEqual(['500', '400', '300', '200']);
  expect(asked?.bikes).toEqual([]);
  const [{ id }] = listBikes(sql);
  expect(ids.map((rideId) => findRide(sql, rideId)?.bikeId)).toEqual(ids.map(() => id));
});

it('a ride is looked for among the bikes of riders, and not among the invented ones', async () => {
  const own = insertBike(sql, hutBike, 'given');
  insertBike(sql, valleyBike, 'given', { sample: true });
  registerRide(sql);
  let among: string[] = [];
  await place(guessed, ({ bikes }) => {
    among = bikes.map(({ id }) => id);
  });
  expect(among).toEqual([own]);
});

it('a ride whose file is gone fails alone and by name', async () => {
  const [rideId, other] = [registerRide(sql), registerRide(sql)];
  const sha256 = findRide(sql, rideId)?.keptSha256;
  await place(
    guessed,
    () => {},
    (asked) => asked !== sha256,
  );
  await place(
    guessed,
    () => {},
    (asked) => asked !== sha256,
  );
  expect(findRide(sql, rideId)).toMatchObject({ bikeId: null, status: 'failed', error: { code: 'file-missing' } });
  expect(findRide(sql, other)).toMatchObject({ status: 'queued', bikeId: listBikes(sql)[0].id });
});

it('a ride that improves the guess of a bike does so where another file of that bike is gone', () => {
  const [first, second] = madeRides(2, { seed: 3, bike: valleyBike });
  const path = join(store.folder, 'ride');
  writeFileSync(path, first.bytes);
  const known = { rear: [...new Set(second.log.gearRecords.rearTeeth)].slice(0, 4), front: [40] };
  const bike = { ...valleyBike, cassette: [11, 13, 15, 17, 20], actuation: 'cable' as const };
  const candidate = {
    id: 'a',
    bike,
    rolloutMm: null,
    guessed: true,
    unclear: false,
    ringsUnclear: false,
    recorded: known,
  };
  const gone = { path: join(store.folder, 'gone'), file: 'gone.fit' };
  const task = { rides: [{ path, file: 'ride.fit' }], bikes: [{ ...candidate, rides: [gone] }] };
  expect(placeRides(task)).toMatchObject({ fault: null, bikeId: 'a', guess: { bike: {} } });
});

import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { keepParts, listAboutItsTime, listParts } from '../../server/store/part-store.ts';
import type { CompareAnswer } from '../../server/work/tasks.ts';
import { WorkerPool } from '../../server/work/worker-pool.ts';
import { CheckedApi, type Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { cutRide, hutBike, type MadeRide, madeRides } from './made-rides.ts';
import { pool, temporaryFolder, testServer } from './test-server.ts';

const { server, api } = await checkedServer();

/** Seconds `fromS` to `toS` of a ride of that day by hand, without gears: its analysis takes no time. */
function cut(name: string, day: number, fromS = 0, toS = 400): MadeRide {
  const rows = Array.from({ length: toS - fromS }, (_, i) => {
    const second = fromS + i;
    const time = new Date(Date.UTC(2026, 4, day, 8, 0, second)).toISOString();
    return `${time},${5 + (second % 7) / 10},${80 + (second % 5)}\n`;
  });
  return { name, bytes: new TextEncoder().encode(`time,speed_mps,cadence_rpm\n${rows.join('')}`) };
}

/** Sends files onto a bike and gives the ids of their rides when all is worked out. */
async function add(bikeId: string, files: Parameters<CheckedApi['send']>[1], on = api): Promise<string[]> {
  const { status, body } = await on.send(`/api/uploads?bike=${bikeId}`, files);
  expect(status).toBe(202);
  await on.settled();
  return body.files.map(({ rideId }: Loose) => rideId);
}

const codes = async (rideId: string, on = api): Promise<string[]> =>
  (await on.get(`/api/rides/${rideId}`)).body.warnings.map(({ code }: Loose) => code);
const counted = async (bikeId: string, on = api): Promise<string[]> =>
  (await on.get(`/api/bikes/${bikeId}`)).body.report.rides.map(({ file }: Loose) => file);

describe('a cut copy of a ride', () => {
  it('counts nowhere, is kept, and says of which ride it is one', async () => {
    const [ride] = madeRides(1, { seed: 21 });
    const [alone, bikeId] = [await api.addHutBike(), await api.addHutBike()];
    await add(alone, [ride]);
    const { body: once } = await api.get(`/api/bikes/${alone}`);
    await api.delete(`/api/bikes/${alone}?withRides=true`);
    const [wholeId, cutId] = await add(bikeId, [ride, cutRide(ride, 'trimmed.fit', 60, 420)]);

    const { body: both } = await api.get(`/api/bikes/${bikeId}`);
    expect(both.report.cogs).toEqual(once.report.cogs);
    expect(both.report.diagnosis).toEqual(once.report.diagnosis);
    expect(both.perPeriod).toEqual(once.perPeriod);
    expect(both.perLoad).toEqual(once.perLoad);
    expect(both.state).toEqual(once.state);
    expect(both.trend.map(({ rideId }: Loose) => rideId)).toEqual([wholeId]);
    expect(both.report.failed).toEqual([
      {
        file: 'trimmed.fit',
        code: 'duplicate',
        message: `trimmed.fit: holds nothing but the ride ${ride.name} or a part of it. It was counted once.`,
      },
    ]);
    const { body: events } = await api.get(`/api/bikes/${bikeId}?events=true`);
    expect(events.report.rides.map(({ file }: Loose) => file)).toEqual([ride.name]);
    const { body: sheet } = await api.get(`/api/bikes/${bikeId}/sheet`);
    expect([sheet.rides, sheet.totals]).toEqual([1, once.report.rides[0].counts]);

    const { body: kept } = await api.get(`/api/rides/${cutId}`);
    expect(kept).toMatchObject({ status: 'done', report: { warnings: kept.warnings } });
    expect(kept.counts.shifts).toBeGreaterThan(3);
    expect(kept.warnings).toMatchObject([
      { code: 'duplicate', message: expect.stringContaining(`${ride.name} (8 min)`) },
    ]);
    const { rides } = (await api.get(`/api/rides?bike=${bikeId}`)).body;
    expect(rides.find(({ id }: Loose) => id === cutId).warnings).toEqual(kept.warnings);
    expect((await api.get('/api/rides')).body.rides.find(({ id }: Loose) => id === cutId).warnings).toEqual(
      kept.warnings,
    );
    expect(await codes(wholeId)).toEqual([]);
  });

  it('counts again when the whole ride is removed or moved to another bike', async () => {
    const [bikeId, other] = [await api.addHutBike(), await api.addHutBike()];
    const [wholeId, cutId] = await add(bikeId, [cut('whole.csv', 1), cut('cut.csv', 1, 0, 300)]);
    await api.put(`/api/rides/${wholeId}`, { bikeId: other });
    await api.settled();
    expect([await counted(bikeId), await counted(other), await codes(cutId)]).toEqual([['cut.csv'], ['whole.csv'], []]);
    await api.put(`/api/rides/${cutId}`, { bikeId: other });
    await api.settled();
    expect([await counted(other), await codes(cutId)]).toEqual([['whole.csv'], ['duplicate']]);
    await api.delete(`/api/rides/${wholeId}`);
    await api.settled();
    expect([await counted(other), await codes(cutId)]).toEqual([['cut.csv'], []]);
  });

  it('gives way to a longer one that comes later, and that to the whole', async () => {
    const bikeId = await api.addHutBike();
    const [shortId] = await add(bikeId, [cut('short.csv', 2, 100, 250)]);
    expect([await counted(bikeId), await codes(shortId)]).toEqual([['short.csv'], []]);
    const [longId] = await add(bikeId, [cut('long.csv', 2, 50, 350)]);
    expect([await counted(bikeId), await codes(shortId), await codes(longId)]).toEqual([
      ['long.csv'],
      ['duplicate'],
      [],
    ]);
    const [wholeId] = await add(bikeId, [cut('whole.csv', 2)]);
    expect(await counted(bikeId)).toEqual(['whole.csv']);
    expect([await codes(shortId), await codes(longId)]).toEqual([['duplicate'], ['duplicate']]);
    await api.delete(`/api/rides/${wholeId}`);
    await api.settled();
    expect([await counted(bikeId), await codes(shortId), await codes(longId)]).toEqual([
      ['long.csv'],
      ['duplicate'],
      [],
    ]);
  });

  it('that holds all of the ride counts once, and the file that came first is the one', async () => {
    const bikeId = await api.addHutBike();
    const ride = cut('second.csv', 3);
    const spaced = Buffer.concat([ride.bytes, Buffer.from('\n\n')]);
    const [firstId] = await add(bikeId, [{ name: 'first.csv', bytes: spaced }]);
    const [secondId] = await add(bikeId, [ride]);
    const ids = [firstId, secondId];
    const copies = (await Promise.all(ids.map((id) => codes(id)))).map((list) => list.includes('duplicate'));
    expect([await counted(bikeId), copies]).toEqual([['first.csv'], [false, true]]);
  });

  it('counts where the whole ride cannot be analysed', async () => {
    const bikeId = await api.addHutBike();
    const [wholeId, cutId] = await add(bikeId, [cut('whole.csv', 4), cut('cut.csv', 4, 0, 300)]);
    server.services.raw.remove((await api.get(`/api/rides/${wholeId}`)).body.sha256);
    await api.put(`/api/bikes/${bikeId}`, { ...hutBike, rolloutMm: 2291 });
    await api.settled();
    expect((await api.get(`/api/rides/${wholeId}`)).body).toMatchObject({
      status: 'failed',
      error: { code: 'file-missing' },
    });
    expect([await counted(bikeId), await codes(cutId)]).toEqual([['cut.csv'], []]);
  });

  it('is found in what a server without this kept, and nothing else is analysed again', async () => {
    const folder = temporaryFolder();
    const data = join(folder.path, 'data');
    const before = await testServer({ data });
    const old = new CheckedApi(before.url);
    const bikeId = await old.addHutBike();
    const [, cutId] = await add(bikeId, [cut('whole.csv', 5), cut('cut.csv', 5, 0, 300), cut('another.csv', 7)], old);
    await before.close();
    const store = new Database(join(data, 'cogwright.sqlite'));
    store.exec(
      "DROP TABLE workshop_mark; DROP TABLE ride_part; ALTER TABLE bike DROP COLUMN certainty; ALTER TABLE judgement DROP COLUMN side; DELETE FROM kysely_migration WHERE name >= '0006'; UPDATE bike SET revision = revision + 1",
    );
    store.pragma('user_version = 5');
    store.close();
    const after = await testServer({ data });
    const on = new CheckedApi(after.url);
    await on.settled();
    expect([await counted(bikeId, on), await codes(cutId, on)]).toEqual([['whole.csv', 'another.csv'], ['duplicate']]);
    const analysed = after.logged.filter(({ job, msg }) => job === 'analyse' && msg === 'job done');
    expect(analysed).toHaveLength(2);
    await after.close();
    folder.remove();
  });

  it('that cannot be compared is analysed none the less', async () => {
    const file = new URL('./faulty-worker.mjs', import.meta.url).href;
    const analysis = new WorkerPool(1, { longestMs: 120_000, memoryMb: 512 }, 0, file);
    const faulty = await testServer({ threads: { intake: pool, analysis } });
    const on = new CheckedApi(faulty.url);
    const bikeId = await on.addHutBike();
    const ids = await add(bikeId, [cut('whole.csv', 6), cut('compares not.csv', 6, 0, 300)], on);
    for (const id of ids) expect((await on.get(`/api/rides/${id}`)).body.status).toBe('done');
    expect(faulty.logged).toContainEqual(
      expect.objectContaining({ job: 'compare', rideId: ids[1], code: 'broke-off' }),
    );
    await faulty.close();
    await analysis.close();
  });
});

describe('what a comparison found', () => {
  const gone = '0123456789abcdef';

  it('is kept in place of what one found before, and for the rides it looked at alone', async () => {
    const rides = [11, 12, 13].map((day) => cut(`${day}.csv`, day));
    const bikeId = await api.addHutBike();
    const [a, b, c] = await add(bikeId, rides);
    const { sql } = server.services;
    const pairs = () => listParts(sql, bikeId).map(({ partId, whole }) => [partId, whole.id]);
    const keep = (found: Partial<CompareAnswer>) =>
      sql.transaction(() => keepParts(sql, a, { compared: [], partOf: [], wholeOf: [], ...found }));
    keep({ compared: [b, c], partOf: [b], wholeOf: [c] });
    expect(pairs()).toEqual(
      expect.arrayContaining([
        [a, b],
        [c, a],
      ]),
    );
    keep({ compared: [b] });
    expect(pairs()).toEqual([[c, a]]);
    keep({ compared: [gone, b], partOf: [gone, b] });
    expect(pairs()).toEqual(
      expect.arrayContaining([
        [a, b],
        [c, a],
      ]),
    );
    keep({ compared: [b, c] });
    expect(pairs()).toEqual([]);
  });

  it('is looked for among rides of the same bike about the same time: the clocks of two recorders differ', async () => {
    const bikeId = await api.addHutBike();
    const files = [cut('a.csv', 14), cut('b.csv', 14, 390, 800), cut('c.csv', 14, 500, 900), cut('d.csv', 15)];
    const [a, b, c, d] = await add(bikeId, files);
    await add(await api.addHutBike(), [cut('e.csv', 14, 100, 300)]);
    const { sql } = server.services;
    const near = (id: string) => listAboutItsTime(sql, id).map(({ id: other }) => other);
    expect([near(a), near(b), near(c), near(d)]).toEqual([[b, c], [a, c], [a, b], []]);
  });
});

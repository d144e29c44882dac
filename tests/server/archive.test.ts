import { createHash } from 'node:crypto';
import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fromBufferPromise } from 'yauzl';
import { ZipFile } from 'yazl';
import { readArchive } from '../../server/archive/read-archive.ts';
import { findRide } from '../../server/store/ride-store.ts';
import { drivetrainUnknown } from '../../src/gear-trace/guess/unknown-drivetrain.ts';
import { CheckedApi, type Loose } from './checked-api.ts';
import { hutBike, type MadeRide, madeRides, tinyRide } from './made-rides.ts';
import { type TestServer, testServer } from './test-server.ts';

const turned = {
  at: '2026-04-12T18:30:00Z',
  parameter: 'cable-tension',
  amount: 2,
  unit: 'clicks',
  note: 'at the hut',
};

const setAside = { on: '2026-05-03', note: 'Wheel out of true' };

/** A GPX ride with a place in it. */
const placed: MadeRide = {
  name: 'placed.gpx',
  bytes: new TextEncoder().encode(
    `<gpx version="1.1"><trk><type>cycling</type><trkseg>${Array.from(
      { length: 60 },
      (_, i) =>
        `<trkpt lat="${46.5 + i * 4e-5}" lon="9.8"><time>${new Date(Date.UTC(2026, 5, 2) + i * 1000).toISOString()}</time></trkpt>`,
    ).join('')}</trkseg></trk></gpx>`,
  ),
};

async function fetchArchive(server: TestServer): Promise<Buffer> {
  const response = await fetch(`${server.url}/api/export`);
  expect(response.status).toBe(200);
  expect(response.headers.get('content-type')).toBe('application/zip');
  return Buffer.from(await response.arrayBuffer());
}

async function unzip(archive: Buffer): Promise<Map<string, Buffer>> {
  const zip = await fromBufferPromise(archive);
  const files = new Map<string, Buffer>();
  for await (const entry of zip.eachEntry()) {
    const chunks: Buffer[] = [];
    for await (const chunk of await zip.openReadStreamPromise(entry)) chunks.push(chunk as Buffer);
    files.set(entry.fileName, Buffer.concat(chunks));
  }
  return files;
}

async function zipOf(files: Record<string, string | Buffer>): Promise<Buffer> {
  const zip = new ZipFile();
  for (const [name, content] of Object.entries(files)) zip.addBuffer(Buffer.from(content), name);
  zip.end();
  const chunks: Buffer[] = [];
  for await (const chunk of zip.outputStream) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

const send = (api: CheckedApi, archive: Buffer) => api.send('/api/import', [{ name: 'archive.zip', bytes: archive }]);

describe('an archive', () => {
  let from: TestServer;
  let to: TestServer;
  let fromApi: CheckedApi;
  let toApi: CheckedApi;
  let archive: Buffer;
  let judged: string;
  beforeAll(async () => {
    from = await testServer();
    to = await testServer();
    [fromApi, toApi] = [new CheckedApi(from.url), new CheckedApi(to.url)];
    const bikeId = await fromApi.addHutBike();
    await fromApi.post(`/api/bikes/${bikeId}/adjustments`, turned);
    await fromApi.put(`/api/bikes/${bikeId}/workshop-mark`, setAside);
    const { body } = await fromApi.send(`/api/uploads?bike=${bikeId}`, [...madeRides(1), tinyRide(1)]);
    await fromApi.send(`/api/uploads?bike=${bikeId}&positions=keep`, [placed]);
    await fromApi.settled();
    const ride = `/api/rides/${body.files[0].rideId}`;
    judged = (await fromApi.get(ride)).body.report.shifts[0].eventKey;
    await fromApi.put(`${ride}/judgements/${judged}`, { verdict: 'confirmed', note: 'seen it' });
    await fromApi.settled();
    archive = await fetchArchive(from);
  });
  afterAll(async () => {
    await from.close();
    await to.close();
  });

  it('brings everything to another machine, where it says the same', async () => {
    const first = await send(toApi, archive);
    expect(first).toEqual({
      status: 200,
      body: {
        bikes: { added: 1, merged: 0 },
        rides: { added: 3, known: 0, refused: [] },
        adjustments: { added: 1, known: 0 },
        judgements: { added: 1, known: 0 },
      },
    });
    await toApi.settled();
    const told = async (api: CheckedApi) => {
      const [bike] = (await api.get('/api/bikes')).body.bikes;
      const { report, adjustmentsLog, workshopMark } = (await api.get(`/api/bikes/${bike.id}?events=true`)).body;
      const rides = (await api.get('/api/rides')).body.rides.map(({ sha256, counts, file }: Loose) => ({
        sha256,
        counts,
        file,
      }));
      expect(workshopMark).toEqual(setAside);
      return { report, adjustmentsLog, rides };
    };
    expect(await told(toApi)).toEqual(await told(fromApi));
  });

  it('read in again adds nothing, and neither does the first file sent itself', async () => {
    expect((await send(toApi, archive)).body).toEqual({
      bikes: { added: 0, merged: 1 },
      rides: { added: 0, known: 3, refused: [] },
      adjustments: { added: 0, known: 1 },
      judgements: { added: 0, known: 1 },
    });
    const uploads = to.services.sql.database.prepare('SELECT count(*) FROM upload').pluck();
    expect(uploads.get()).toBe(1);
    const { body } = await toApi.send('/api/uploads', [...madeRides(1), placed]);
    expect(body.files.map(({ status }: Loose) => status)).toEqual(['duplicate', 'duplicate']);
  });

  it('keeps what the other machine has of the same bike, and adds what it has not', async () => {
    const third = await testServer();
    try {
      const api = new CheckedApi(third.url);
      const bikeId = (await api.post('/api/bikes', { ...hutBike, name: 'My own name' })).body.id;
      await api.send(`/api/uploads?bike=${bikeId}`, [tinyRide(1), tinyRide(2)]);
      const { body } = await send(api, archive);
      expect(body).toMatchObject({ bikes: { added: 0, merged: 1 }, rides: { added: 2, known: 1 } });
      const { bikes } = (await api.get('/api/bikes')).body;
      // who set it aside there does not take it from its rider here
      const own = { bike: { name: 'My own name' }, rides: 4, adjustments: 1, workshopMark: null };
      expect(bikes).toMatchObject([{ id: bikeId, ...own }]);
      await api.settled();
    } finally {
      await third.close();
    }
  });

  it('holds no position, not even one that was kept on purpose', async () => {
    const kept = (await fromApi.get('/api/rides')).body.rides.find(({ file }: Loose) => file === placed.name);
    expect(kept.positions).toBe('kept');
    const own = await (await fetch(`${from.url}/api/rides/${kept.id}/file`)).text();
    expect(own.includes('46.5000')).toBe(true);
    for (const [name, content] of await unzip(archive)) expect(content.includes('46.5000'), name).toBe(false);
    const [bike] = (await fromApi.get('/api/bikes')).body.bikes;
    for (const path of [`/api/bikes/${bike.id}?events=true`, `/api/bikes/${bike.id}/sheet`, `/api/rides/${kept.id}`])
      expect(JSON.stringify((await fromApi.get(path)).body)).not.toMatch(/46\.5000|"lat"|"lon"|position_/);
  });

  it('carries along that a drivetrain is not known, and names the rides whose file is missing', async () => {
    const [fifth, sixth] = [await testServer(), await testServer()];
    try {
      const [api, other] = [new CheckedApi(fifth.url), new CheckedApi(sixth.url)];
      const { body } = await api.send('/api/uploads?positions=keep', [tinyRide(1), tinyRide(2), placed]);
      await api.settled();
      const [{ bike }] = (await api.get('/api/bikes')).body.bikes;
      const lost = [body.files[1], body.files[2]];
      for (const { rideId } of lost)
        fifth.services.raw.remove(findRide(fifth.services.sql, rideId)?.keptSha256 as string);
      const partly = await fetchArchive(fifth);
      const manifest = JSON.parse(String((await unzip(partly)).get('manifest.json')));
      const names = lost.map(({ name }: Loose) => name).sort();
      expect(manifest.missing.map(({ file }: Loose) => file).sort()).toEqual(names);
      const said = fifth.logged.filter(({ level }) => level === 50).map(({ rideId }) => rideId);
      expect(said.sort()).toEqual(lost.map(({ rideId }: Loose) => rideId).sort());

      const { body: merged } = await send(other, partly);
      expect(merged.rides.added).toBe(1);
      expect(merged.rides.refused.map(({ name }: Loose) => name).sort()).toEqual(names);
      expect(merged.rides.refused[0].message).toContain('lacks the file');
      await other.settled();
      const [there] = (await other.get('/api/bikes')).body.bikes;
      expect(there.bike).toEqual(bike);
      const { report } = (await other.get(`/api/bikes/${there.id}`)).body;
      expect(drivetrainUnknown(report.bikeNotes)).toBe(true);
    } finally {
      await fifth.close();
      await sixth.close();
    }
  });

  describe('that is not as it should be is refused, and adds no ride', () => {
    let files: Record<string, Buffer>;
    let rides: Loose[];
    beforeAll(async () => {
      files = Object.fromEntries(await unzip(archive));
      rides = JSON.parse(files['rides.json'].toString());
    });
    const withFiles = (changed: Record<string, string | Buffer>) => zipOf({ ...files, ...changed });
    /** With noise in the middle of what is packed under this name. */
    async function damaged(name: string, changed: Record<string, string | Buffer> = {}): Promise<Buffer> {
      const zip = Buffer.from(await withFiles(changed));
      const headerBytes = 30 + name.length;
      return zip.fill(0xff, zip.indexOf(name) - 30 + headerBytes + 8, zip.indexOf(name) - 30 + headerBytes + 40);
    }

    it.each<[string, () => Promise<Buffer> | Buffer, string]>([
      ['no zip at all', () => Buffer.from('hello'), 'bad-archive'],
      ['cut off', () => archive.subarray(0, archive.length - 100), 'bad-archive'],
      ['without a manifest', () => zipOf({ 'bikes.json': '[]', 'rides.json': '[]' }), 'bad-archive'],
      [
        'of a newer version',
        () =>
          withFiles({
            'manifest.json': JSON.stringify({
              format: 'cogwright-archive',
              version: 2,
              madeAt: '2026-01-01T00:00:00Z',
            }),
          }),
        'archive-newer',
      ],
      ['with a file that does not belong', () => withFiles({ 'raw/passwd': 'x' }), 'bad-archive'],
      ['with a list that is none', () => withFiles({ 'bikes.json': '{"a":1}' }), 'bad-archive'],
      ['with a list that is damaged', () => damaged('bikes.json'), 'bad-archive'],
      ['with a list that is no JSON', () => withFiles({ 'bikes.json': 'nonsense' }), 'bad-archive'],
    ])('%s', async (_what, make, code) => {
      const before = (await toApi.get('/api/rides')).body.rides.length;
      const answer = await send(toApi, await make());
      expect(answer).toMatchObject({ status: 422, body: { error: { code } } });
      expect((await toApi.get('/api/rides')).body.rides).toHaveLength(before);
    });

    it('is told that it is cut off where it begins as an archive, and that it is none where it does not', async () => {
      const cut = await send(toApi, archive.subarray(0, archive.length - 100));
      expect(cut.body.error.message).toMatch(/is not whole: its end is missing\. Save it again/);
      expect((await send(toApi, Buffer.from('PK'))).body.error.message).toContain('is no zip file');
    });

    it('leaves nothing in the data folder where two are sent at once', async () => {
      const two = ['a.zip', 'b.zip'].map((name) => ({ name, bytes: archive }));
      const answer = await toApi.send('/api/import', two);
      expect(answer).toMatchObject({ status: 413, body: { error: { code: 'too-many-files' } } });
      expect(answer.body.error.message).toContain('At most 1 file can');
      expect(readdirSync(join(to.data, 'incoming'))).toEqual([]);
    });

    it('with more files than are held in memory', async () => {
      const path = join(to.data, 'incoming', 'many.zip');
      writeFileSync(path, archive);
      await expect(readArchive(path, 5)).rejects.toMatchObject({ code: 'bad-archive' });
      (await readArchive(path, 6)).close();
      rmSync(path);
    });

    it('names a ride whose file is damaged within the zip', async () => {
      const other = await testServer();
      try {
        const name = `raw/${rides.find(({ file }) => file === placed.name).sha256}`;
        const { status, body } = await send(new CheckedApi(other.url), await damaged(name));
        expect(status).toBe(200);
        expect(body.rides).toMatchObject({
          added: 2,
          refused: [{ name: placed.name, message: expect.stringContaining('cannot be unpacked') }],
        });
        await new CheckedApi(other.url).settled();
      } finally {
        await other.close();
      }
    });

    it('names the rides whose file is missing, changed or no ride, and takes the others', async () => {
      const fourth = await testServer();
      try {
        const api = new CheckedApi(fourth.url);
        const junk = Buffer.from('this is no ride');
        const sha = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');
        const forged = [
          rides[0],
          { ...rides[1], file: '../../changed.fit', archivedSha256: 'a'.repeat(64) },
          { ...rides[2], file: 'junk.fit', sha256: 'b'.repeat(64), archivedSha256: sha(junk) },
          { ...rides[2], file: 'missing.fit', sha256: 'c'.repeat(64), archivedSha256: 'c'.repeat(64) },
        ];
        const sent = await withFiles({ 'rides.json': JSON.stringify(forged), [`raw/${'b'.repeat(64)}`]: junk });
        const { status, body } = await send(api, sent);
        expect(status).toBe(200);
        expect(body.rides.added).toBe(1);
        expect(body.rides.refused.map(({ name }: Loose) => name)).toEqual(['changed.fit', 'junk.fit', 'missing.fit']);
        await api.settled();
      } finally {
        await fourth.close();
      }
    });
  });
});

describe('an archive that cannot be read for a fault of this machine', () => {
  it('is not called damaged or no zip file', async () => {
    const missing = join(tmpdir(), `no-such-archive-${process.pid}.zip`);
    await expect(readArchive(missing)).rejects.toMatchObject({ code: 'ENOENT', syscall: 'open' });
  });
});

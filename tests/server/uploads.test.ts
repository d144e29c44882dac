import { readdirSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { findColumns } from '../../server/store/analysis-store.ts';
import { deleteRide, findRide, placeRide } from '../../server/store/ride-store.ts';
import { readFindings } from '../../server/work/read-findings.ts';
import { CheckedApi, type Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { hutBike, madeRides, tinyRide, valleyBike } from './made-rides.ts';
import { readEvents } from './read-events.ts';
import { registerRide } from './register-ride.ts';
import { testServer } from './test-server.ts';
import { valueColumns } from './value-columns.ts';

const { server, api } = await checkedServer();

const incoming = (): string[] => readdirSync(join(server.data, 'incoming'));

describe('an upload', () => {
  it('is acknowledged, followed to its end, and shows in the report', async () => {
    const bikeId = await api.addHutBike();
    const rides = madeRides(2);
    const turned = { at: '2020-01-01T08:00:00Z', parameter: 'cable-tension', amount: 1, unit: 'clicks' };
    await api.post(`/api/bikes/${bikeId}/adjustments`, turned);
    const sent = await api.send(`/api/uploads?bike=${bikeId}`, rides);
    expect(sent.status).toBe(202);
    expect(sent.body.files).toMatchObject(rides.map(({ name }) => ({ name, status: 'queued' })));
    const events = await readEvents(`${server.url}/api/uploads/${sent.body.uploadId}/events`);
    expect(events.at(-1)).toEqual({ event: 'finished', data: { done: 2, failed: 0, total: 2, bikeIds: [bikeId] } });
    expect(events.filter(({ event }) => event === 'progress').map(({ data }) => data.status)).toContain('done');
    await api.settled();
    const { body } = await api.get(`/api/bikes/${bikeId}?events=false`);
    expect(body).toMatchObject({ rides: 2, report: { rides: [{}, {}] } });
    expect(body.trend).toHaveLength(2);
    expect(body.report.adjustments).toMatchObject([{ parameter: 'cable-tension', before: { shifts: 0 } }]);
    expect(body.perPeriod).toMatchObject([{ from: null }, { to: null }]);
    expect(body.report.rides[0].counts.shifts).toBeGreaterThan(10);
    expect(body.perLoad.map(({ load }: Loose) => load)).toEqual(expect.arrayContaining(['soft', 'firm']));
    const sheet = await api.get(`/api/bikes/${bikeId}/sheet`);
    expect(sheet.body.rides).toBe(2);
    expect(sheet.body.causes).toHaveLength(5);
  });

  it('gives columns of one length, packed or not, and the kept file', async () => {
    const [ride] = madeRides(1, { seed: 2 });
    const { body } = await api.send(`/api/uploads?bike=${await api.addHutBike()}`, [ride]);
    await api.settled();
    const { rideId } = body.files[0];
    const { body: columns } = await api.get(`/api/rides/${rideId}/columns`);
    expect(columns.cassette).toEqual(hutBike.cassette);
    for (const name of valueColumns) expect(columns[name], name).toHaveLength(columns.timeS.length);
    const plain = await fetch(`${server.url}/api/rides/${rideId}/columns`, {
      headers: { 'accept-encoding': 'identity' },
    });
    expect(plain.headers.get('content-encoding')).toBeNull();
    expect(await plain.json()).toEqual(columns);
    const file = await fetch(`${server.url}/api/rides/${rideId}/file`);
    expect(file.headers.get('content-disposition')).toContain(ride.name);
    expect(Buffer.from(await file.arrayBuffer()).equals(Buffer.from(ride.bytes))).toBe(true);
  });

  it('of a hundred files names the bad one and loses none of the others', async () => {
    const files = Array.from({ length: 100 }, (_, i) => tinyRide(i));
    files[41] = { name: 'holiday.jpg', bytes: Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0, 0, 0, 0]) };
    const { status, body } = await api.send(`/api/uploads?bike=${await api.addHutBike()}`, files);
    expect(status).toBe(202);
    expect(body.files).toHaveLength(100);
    const others = body.files.filter((_: Loose, i: number) => i !== 41);
    expect(new Set(others.map((file: Loose) => file.status))).toEqual(new Set(['queued']));
    expect(body.files[41]).toMatchObject({ name: 'holiday.jpg', status: 'refused', code: 'unknown-format' });
    expect(body.files[41].message).toMatch(/^holiday\.jpg: /);
    await api.settled();
    const rides = (await api.get('/api/rides')).body.rides.filter(({ file }: Loose) => file.startsWith('tiny-'));
    expect(rides).toHaveLength(99);
    expect(new Set(rides.map(({ status }: Loose) => status))).toEqual(new Set(['done']));
    expect(incoming()).toEqual([]);
  });

  it('of the same content is noticed, under whatever name and on whatever bike', async () => {
    const ride = tinyRide(500);
    const first = await api.send(`/api/uploads?bike=${await api.addHutBike()}`, [ride]);
    const { rideId } = first.body.files[0];
    const again = await api.send(`/api/uploads?bike=${await api.addHutBike()}`, [
      { ...ride, name: 'other name.csv' },
      ride,
    ]);
    expect(again.body.files).toMatchObject([
      { name: 'other name.csv', status: 'duplicate', rideId, message: `It is already here, on ${hutBike.name}.` },
      { name: ride.name, status: 'duplicate', rideId },
    ]);
    const events = await readEvents(`${server.url}/api/uploads/${again.body.uploadId}/events`);
    expect(events).toEqual([{ event: 'finished', data: { done: 0, failed: 0, total: 0, bikeIds: [] } }]);
  });

  it('sent twice at the same moment becomes one ride', async () => {
    const bikeId = await api.addHutBike();
    const ride = tinyRide(501);
    const answers = await Promise.all([1, 2, 3].map(() => api.send(`/api/uploads?bike=${bikeId}`, [ride])));
    const files = answers.flatMap(({ body }) => body.files);
    expect(files.map(({ status }) => status).sort()).toEqual(['duplicate', 'duplicate', 'queued']);
    expect(new Set(files.map(({ rideId }) => rideId)).size).toBe(1);
  });

  it('without a bike makes one, and the next ride of that bike finds it', async () => {
    const [first, second] = madeRides(2, { seed: 3, bike: valleyBike });
    const { body } = await api.send('/api/uploads', [first]);
    await readEvents(`${server.url}/api/uploads/${body.uploadId}/events`);
    const { bikeId } = (await api.get(`/api/rides/${body.files[0].rideId}`)).body;
    const { bike, ...made } = (await api.get(`/api/bikes/${bikeId}`)).body;
    expect(made).toMatchObject({ bikeSource: 'guessed', rides: 1 });
    await api.settled();
    expect((await api.get(`/api/bikes/${bikeId}`)).body.report.bikeNotes).toMatchObject([
      { code: 'bike-guessed' },
      { code: 'actuation-guessed' },
    ]);
    expect(bike.cassette.filter((teeth: number) => valleyBike.cassette.includes(teeth)).length).toBeGreaterThan(5);
    const { body: next } = await api.send('/api/uploads?bike=auto', [second]);
    await readEvents(`${server.url}/api/uploads/${next.uploadId}/events`);
    expect((await api.get(`/api/rides/${next.files[0].rideId}`)).body.bikeId).toBe(bikeId);
  });

  it('that asks for a new bike gets one for all its rides', async () => {
    const { body } = await api.send('/api/uploads?bike=new', madeRides(2, { seed: 4, bike: valleyBike }));
    await readEvents(`${server.url}/api/uploads/${body.uploadId}/events`);
    const bikeIds = await Promise.all(
      body.files.map(async ({ rideId }: Loose) => (await api.get(`/api/rides/${rideId}`)).body.bikeId),
    );
    expect(new Set(bikeIds).size).toBe(1);
    expect((await api.get(`/api/bikes/${bikeIds[0]}`)).body).toMatchObject({ bikeSource: 'guessed', rides: 2 });
  });

  it('can be moved to another bike and removed', async () => {
    const [from, to] = [await api.addHutBike(), await api.addHutBike()];
    const { body } = await api.send(`/api/uploads?bike=${from}`, [tinyRide(600)]);
    const { rideId } = body.files[0];
    expect((await api.put(`/api/rides/${rideId}`, { bikeId: to })).status).toBe(202);
    await api.settled();
    expect((await api.get(`/api/rides?bike=${to}`)).body.rides).toMatchObject([{ id: rideId, status: 'done' }]);
    expect((await api.get(`/api/rides?bike=${from}`)).body.rides).toEqual([]);
    const { error } = (await api.delete(`/api/bikes/${to}`)).body;
    expect(error).toMatchObject({ code: 'bike-has-rides', message: expect.stringMatching(/^This bike has 1 ride\. /) });
    const { sha256 } = (await api.get(`/api/rides/${rideId}`)).body;
    expect(server.services.raw.has(sha256)).toBe(true);
    expect((await api.delete(`/api/rides/${rideId}`)).status).toBe(204);
    expect(server.services.raw.has(sha256)).toBe(false);
    expect((await api.send(`/api/uploads?bike=${to}`, [tinyRide(600)])).body.files[0].status).toBe('queued');
    expect((await api.delete(`/api/bikes/${to}?withRides=true`)).status).toBe(204);
    expect(server.services.raw.has(sha256)).toBe(false);
  });

  it('moved to another bike keeps nothing that was found with the cogs of the first', async () => {
    const from = await api.addHutBike();
    const to = (await api.post('/api/bikes', valleyBike)).body.id;
    const { body } = await api.send(`/api/uploads?bike=${from}`, madeRides(1, { seed: 7 }));
    const { rideId } = body.files[0];
    await api.settled();
    expect((await api.get(`/api/rides/${rideId}`)).body.counts).not.toBeNull();
    const { sql } = server.services;
    // In one turn of the event loop, so that no new analysis can come between.
    sql.transaction(() => placeRide(sql, rideId, from));
    expect(findRide(sql, rideId)?.counts).not.toBeNull();
    sql.transaction(() => placeRide(sql, rideId, to));
    expect(findRide(sql, rideId)).toMatchObject({ bikeId: to, status: 'queued', counts: null, evidence: null });
    expect(findColumns(sql, rideId)).toBeUndefined();
    expect(readFindings(sql, { id: to, bike: hutBike, drivetrainVersion: 1 }).rides).toEqual([]);
    server.services.queue.tellBike(to);
    await api.settled();
    expect((await api.get(`/api/rides/${rideId}/columns`)).body.cassette).toEqual(valleyBike.cassette);
  });

  it('that failed and waits again carries its old fault no longer', async () => {
    const [from, to] = [await api.addHutBike(), await api.addHutBike()];
    const { sql } = server.services;
    const rideId = registerRide(sql, from);
    server.services.queue.tellBike(from);
    await api.settled();
    expect((await api.get(`/api/rides/${rideId}`)).body).toMatchObject({ error: { code: 'file-missing' } });
    sql.transaction(() => placeRide(sql, rideId, to));
    expect(findRide(sql, rideId)).toMatchObject({ status: 'queued', error: null });
    sql.transaction(() => deleteRide(sql, rideId));
  });

  it('keeps names for showing only', async () => {
    const { body } = await api.send(`/api/uploads?bike=${await api.addHutBike()}`, [
      { ...tinyRide(601), name: '../../../etc/passwd' },
      { ...tinyRide(602), name: 'C:\\rides\\ev\u202eil.csv' },
    ]);
    expect(body.files.map(({ name }: Loose) => name)).toEqual(['passwd', 'evil.csv']);
  });
});

describe('an upload that goes wrong', () => {
  it('whose kept file has gone says so', async () => {
    const { body } = await api.send(`/api/uploads?bike=${await api.addHutBike()}`, [tinyRide(603)]);
    await api.settled();
    const { rideId } = body.files[0];
    server.services.raw.remove(findRide(server.services.sql, rideId)?.keptSha256 as string);
    const answer = await api.get(`/api/rides/${rideId}/file`);
    expect(answer).toMatchObject({ status: 404, body: { error: { code: 'file-missing' } } });
    expect(answer.body.error.message).toContain('tiny-603.csv');
    // removed after it was looked for
    const has = vi.spyOn(server.services.raw, 'has').mockReturnValue(true);
    expect(await api.get(`/api/rides/${rideId}/file`)).toEqual(answer);
    has.mockRestore();
    // a file that cannot be read is not gone: that is the machine's fault
    const path = vi.spyOn(server.services.raw, 'path').mockReturnValue(join(import.meta.filename, 'not-a-folder'));
    expect((await api.get(`/api/rides/${rideId}/file`)).status).toBe(500);
    path.mockRestore();
  });

  it('is refused where no files are sent as a form', async () => {
    const answer = await api.post('/api/uploads', { files: [] });
    expect(answer).toMatchObject({ status: 415, body: { error: { code: 'wrong-type' } } });
    const elsewhere = await api.send('/api/uploads?bike=somewhere', [tinyRide(1)]);
    expect(elsewhere).toMatchObject({ status: 400, body: { error: { code: 'invalid-request' } } });
    expect(elsewhere.body.error.message).toContain('must be auto, new or an id of 16 hex digits');
    expect((await api.send('/api/uploads?bike=0123456789abcdef', [tinyRide(1)])).status).toBe(404);
  });

  it('is refused where the form holds no file', async () => {
    const form = new FormData();
    form.append('x', '1');
    const answer = await fetch(`${server.url}/api/uploads`, { method: 'POST', body: form });
    expect(answer.status).toBe(400);
    expect(((await answer.json()) as Loose).error).toMatchObject({
      code: 'invalid-request',
      message: 'No ride file was sent. Choose a file first.',
    });
  });

  it('leaves nothing of a file whose sender hangs up, and keeps the files before it', async () => {
    const bikeId = await api.addHutBike();
    const boundary = 'x'.repeat(20);
    const part = (name: string): string =>
      `--${boundary}\r\ncontent-disposition: form-data; name="f"; filename="${name}"\r\n\r\n`;
    const whole = tinyRide(700);
    const { host } = new URL(server.url);
    await new Promise<void>((resolve) => {
      const sending = request(`${server.url}/api/uploads?bike=${bikeId}`, {
        method: 'POST',
        headers: { host, 'content-type': `multipart/form-data; boundary=${boundary}`, 'content-length': 1_000_000 },
      });
      sending.on('error', () => resolve());
      sending.write(
        `${part(whole.name)}${Buffer.from(whole.bytes)}\r\n${part('half.csv')}time_s,speed_mps\n1,2\n`,
        () => setTimeout(() => sending.destroy(), 300),
      );
    });
    await expect.poll(incoming).toEqual([]);
    await api.settled();
    expect((await api.get(`/api/rides?bike=${bikeId}`)).body.rides).toMatchObject([
      { file: whole.name, status: 'done' },
    ]);
  });
});

describe('an upload that was refused', () => {
  const uploads = (): unknown => server.services.sql.database.prepare('SELECT count(*) FROM upload').pluck().get();

  it('leaves nothing behind, and one that was answered can be asked after', async () => {
    const bikeId = await api.addHutBike();
    const before = uploads();
    for (let i = 0; i < 3; i++) expect((await api.send(`/api/uploads?bike=${bikeId}`, [])).status).toBe(400);
    expect(uploads()).toBe(before);
    const answered = await api.send(`/api/uploads?bike=${bikeId}`, [{ name: 'x.csv', bytes: new Uint8Array([1]) }]);
    expect(answered).toMatchObject({ status: 202, body: { files: [{ status: 'refused' }] } });
    const events = await readEvents(`${server.url}/api/uploads/${answered.body.uploadId}/events`);
    expect(events).toMatchObject([{ event: 'finished', data: { total: 0 } }]);
  });

  it('is answered when every file is done with, and keeps what was taken', async () => {
    const bikeId = await api.addHutBike();
    const { services } = server;
    const run = services.intake.run.bind(services.intake);
    let taken = 0;
    services.intake.run = async (name, task) => {
      if (name === 'intake' && ++taken === 1) throw new TypeError('a fault of the program');
      const answer = await run(name, task);
      await new Promise((resolve) => setTimeout(resolve, 300));
      return answer;
    };
    const answer = await api.send(`/api/uploads?bike=${bikeId}`, [tinyRide(710), tinyRide(711)]);
    services.intake.run = run;
    expect(answer.status).toBe(500);
    // either file may come up first: one of them failed, the other is kept
    const { rides } = (await api.get(`/api/rides?bike=${bikeId}`)).body;
    expect(rides.map(({ file }: { file: string }) => file)).toEqual([expect.stringMatching(/^tiny-71[01]\.csv$/)]);
    await api.settled();
  });
});

describe('bounds', () => {
  it('on size, number and silence hold', async () => {
    const small = await testServer({ limits: { files: 3, fileBytes: 20_000, silentMs: 300, atOnce: 1 } });
    const smallApi = new CheckedApi(small.url);
    try {
      const big = { name: 'big.csv', bytes: new Uint8Array(30_000).fill(65) };
      const { body } = await smallApi.send('/api/uploads', [tinyRide(1), big, tinyRide(2)]);
      expect(body.files).toMatchObject([
        { status: 'queued' },
        { name: 'big.csv', status: 'refused', code: 'too-large' },
        { status: 'queued' },
      ]);
      const many = await smallApi.send('/api/uploads', [3, 4, 5, 6].map(tinyRide));
      expect(many).toMatchObject({ status: 413, body: { error: { code: 'too-many-files' } } });
      const silent = request(`${small.url}/api/uploads`, {
        method: 'POST',
        headers: { 'content-type': 'multipart/form-data; boundary=y', 'content-length': 1000 },
      });
      const hungUp = new Promise((resolve) => silent.on('error', resolve).on('response', resolve));
      silent.write('--y\r\n');
      await new Promise((resolve) => setTimeout(resolve, 100));
      expect(await smallApi.send('/api/uploads', [tinyRide(9)])).toMatchObject({
        status: 503,
        body: { error: { code: 'busy' } },
      });
      await hungUp;
      await expect.poll(async () => (await smallApi.send('/api/uploads', [tinyRide(9)])).status).toBe(202);
    } finally {
      await small.close();
    }
  });
});

describe('a guess', () => {
  it('tells what was read and what not, and stores nothing', async () => {
    const before = (await api.get('/api/rides')).body.rides.length;
    const { status, body } = await api.send('/api/drivetrain-guess', [
      ...madeRides(1, { seed: 3 }),
      { name: 'notes.txt', bytes: new TextEncoder().encode('nothing to see') },
    ]);
    expect(status).toBe(200);
    expect(body.bike.cassette.length).toBeGreaterThan(9);
    expect(body.certainty).toBeGreaterThan(0.1);
    expect(body.files[0].understood).toContain('cadence');
    expect(body.withCadence).toBe(true);
    expect(body.files[1]).toMatchObject({
      name: 'notes.txt',
      understood: [],
      notUnderstood: [expect.stringContaining('notes.txt')],
    });
    expect((await api.get('/api/rides')).body.rides).toHaveLength(before);
    expect(incoming()).toEqual([]);
  });

  it('tells which cogs nothing shows', async () => {
    const rows = [24, 28, 24].map((teeth, second) => `${second},3,${teeth}`);
    const bytes = new TextEncoder().encode(['time_s,speed_mps,rear_teeth', ...rows].join('\n'));
    const { body } = await api.send('/api/drivetrain-guess', [{ name: 'short.csv', bytes }]);
    expect(body).toMatchObject({
      bike: { cassette: [24, 28, 33, 39, 46] },
      madeUpCogs: [33, 39, 46],
      withCadence: false,
    });
  });

  it('tells what was read where that shows no drivetrain, with remarks apart from what is missing', async () => {
    const bytes = new TextEncoder().encode('time_s,speed_mps\n0,3\n1,3\n1,4\n2,5\n');
    const unread = { name: 'x.fit', bytes: Uint8Array.from([1, 2, 3, 0]) };
    const { status, body } = await api.send('/api/drivetrain-guess', [{ name: 'plain.csv', bytes }, unread]);
    expect(status).toBe(200);
    expect(body).toMatchObject({ bike: null, certainty: 0, notes: [expect.stringContaining('Describe the bike')] });
    expect(body.files[0]).toMatchObject({
      understood: ['3 records (CSV)', 'speed'],
      notUnderstood: [expect.stringMatching(/^No cadence/), expect.stringMatching(/^No gear records/)],
      remarks: [expect.stringContaining('1 record')],
    });
    expect(body.files[1]).toMatchObject({ name: 'x.fit', understood: [], remarks: [] });
  });

  it('says so of rides of two bikes, and nothing of what was guessed from both, which was never ridden', async () => {
    const rides = [madeRides(1)[0], madeRides(1, { bike: valleyBike })[0]];
    const { body } = await api.send('/api/drivetrain-guess', rides);
    expect(body.ridesApart).toBe(true);
    expect(body.notes).toEqual([expect.stringMatching(/^These rides do not look like those of one bike: /)]);
    expect(body.files).toHaveLength(2);
  });

  it('is refused where nothing could be read', async () => {
    const answer = await api.send('/api/drivetrain-guess', [{ name: 'x.fit', bytes: Uint8Array.from([1, 2, 3, 0]) }]);
    expect(answer).toMatchObject({
      status: 422,
      body: { error: { code: 'nothing-to-guess-from', details: [{ path: 'x.fit' }] } },
    });
  });
});

import { deserialize, serialize } from 'node:v8';
import { describe, expect, it } from 'vitest';
import { engineVersion } from '../../server/engine.ts';
import { findReport, requeueReports } from '../../server/store/report-store.ts';
import { WorkerPool } from '../../server/work/worker-pool.ts';
import type { RideEvents } from '../../src/shifts/ride-events.ts';
import { CheckedApi, type Loose } from './checked-api.ts';
import { hutBike, madeRides, tinyRide } from './made-rides.ts';
import { readEvents } from './read-events.ts';
import { pool, temporaryFolder, testServer } from './test-server.ts';

describe('a ride whose analysis', () => {
  /** What becomes of rides of these names, sent together to a server whose threads have so long for each. */
  async function outcomes(longestMs: number, names: readonly string[]) {
    const file = new URL('./faulty-worker.mjs', import.meta.url).href;
    const analysis = new WorkerPool(1, { longestMs, memoryMb: 128 }, 0, file);
    const server = await testServer({ threads: { intake: pool, analysis } });
    const api = new CheckedApi(server.url);
    const bikeId = await api.addHutBike();
    const files = names.map((name, i) => ({ ...tinyRide(i), name: `${name}.csv` }));
    const { body } = await api.send(`/api/uploads?bike=${bikeId}`, files);
    let answered = 0;
    const asking = setInterval(() => void api.get('/api/health').then(() => answered++), 50);
    const events = await readEvents(`${server.url}/api/uploads/${body.uploadId}/events`);
    clearInterval(asking);
    const { rides } = (await api.get(`/api/rides?bike=${bikeId}`)).body;
    await api.settled();
    const { failed } = (await api.get(`/api/bikes/${bikeId}`)).body.report;
    await server.close();
    await analysis.close();
    return {
      of: (name: string) => rides.find((ride: Loose) => ride.file === `${name}.csv`),
      answered,
      last: events.at(-1),
      failed: failed.map((ride: Loose) => ride.file).sort(),
    };
  }

  it('hangs fails alone and by name, while the server answers', async () => {
    const { of, answered, last, failed } = await outcomes(6000, ['hangs', 'good']);
    expect(last).toMatchObject({ event: 'finished', data: { done: 1, failed: 1 } });
    expect(answered).toBeGreaterThan(10);
    expect(of('hangs')).toMatchObject({
      status: 'failed',
      error: { code: 'took-too-long', message: expect.stringContaining('hangs.csv') },
    });
    expect(of('good').status).toBe('done');
    expect(failed).toEqual(['hangs.csv']);
  });

  it('eats memory or breaks off fails alone and by name', async () => {
    // the memory of a busy machine is eaten slowly
    const { of, last, failed } = await outcomes(300_000, ['good', 'eats', 'breaks', 'fine']);
    expect(last).toMatchObject({ event: 'finished', data: { done: 2, failed: 2 } });
    expect(of('eats')).toMatchObject({ status: 'failed', error: { code: 'out-of-memory' } });
    expect(of('breaks')).toMatchObject({ status: 'failed', error: { code: 'broke-off' } });
    for (const name of ['good', 'fine']) expect(of(name).status).toBe('done');
    expect(failed).toEqual(['breaks.csv', 'eats.csv']);
  });
});

describe('work that someone waits for', () => {
  it('is refused with the reason where it takes too much or the server stops', async () => {
    const file = new URL('./faulty-worker.mjs', import.meta.url).href;
    const intake = new WorkerPool(1, { longestMs: 60_000, memoryMb: 128 }, 0, file);
    const server = await testServer({ threads: { intake, analysis: pool } });
    const api = new CheckedApi(server.url);
    const guess = await api.send('/api/drivetrain-guess', [{ ...tinyRide(1), name: 'eats.csv' }]);
    expect(guess).toMatchObject({ status: 422, body: { error: { code: 'out-of-memory' } } });
    expect(guess.body.error.message).toContain('Send fewer');
    const bikeId = await api.addHutBike();
    await intake.close();
    const report = await api.get(`/api/bikes/${bikeId}?events=true`);
    expect(report).toMatchObject({ status: 503, body: { error: { code: 'stopped' } } });
    expect(server.logged.filter(({ level }) => level === 50)).toEqual([]);
    await server.close();
  });
});

describe('what is left to do', () => {
  it('goes on where a server stopped, and is done again when the engine changed', async () => {
    const folder = temporaryFolder();
    const data = `${folder.path}/data`;
    const first = await testServer({ data });
    let api = new CheckedApi(first.url);
    const bikeId = await api.addHutBike();
    const { body } = await api.send(`/api/uploads?bike=${bikeId}`, [tinyRide(1), tinyRide(2)]);
    await first.close();
    const second = await testServer({ data });
    api = new CheckedApi(second.url);
    await api.settled();
    const { rides } = (await api.get('/api/rides')).body;
    expect(rides.map(({ status }: Loose) => status)).toEqual(['done', 'done']);
    expect(rides.map(({ id }: Loose) => id).sort()).toEqual(body.files.map(({ rideId }: Loose) => rideId).sort());
    // As if an older engine had worked it all out.
    const { database } = second.services.sql;
    database.exec("UPDATE ride SET engine_version = 'old'; UPDATE bike_report SET engine_version = 'old'");
    // its report may lack what is read of one now: only its summary is given
    requeueReports(second.services.sql, engineVersion);
    const kept = findReport(second.services.sql, bikeId);
    expect(kept).toMatchObject({ report: 'null', detail: 'null', summary: expect.stringContaining('"state"') });
    await second.close();
    const third = await testServer({ data });
    api = new CheckedApi(third.url);
    await api.settled();
    expect((await api.get(`/api/bikes/${bikeId}`)).body).toMatchObject({ engineVersion, report: { rides: [{}, {}] } });
    const versions = third.services.sql.database.prepare('SELECT DISTINCT engine_version FROM ride').all();
    expect(versions).toEqual([{ engine_version: engineVersion }]);
    expect(third.logged).toContainEqual(expect.objectContaining({ rides: 2, engineVersion }));
    await third.close();
    folder.remove();
  });

  it('is done again for another drivetrain, with the old report meanwhile', async () => {
    const server = await testServer();
    const api = new CheckedApi(server.url);
    const bikeId = await api.addHutBike();
    await api.send(`/api/uploads?bike=${bikeId}`, madeRides(1));
    await api.settled();
    const news = readEvents(`${server.url}/api/events`, (events) =>
      events.some(({ event, data }) => event === 'bike' && data.pending === 0),
    );
    const cassette = [11, 13, 15, 17, 19, 22, 25, 29, 34, 40, 46, 52];
    const { body: job } = await api.put(`/api/bikes/${bikeId}`, { ...hutBike, cassette });
    const meanwhile = (await api.get(`/api/bikes/${bikeId}`)).body;
    expect(meanwhile.staleReason).not.toBeNull();
    expect(meanwhile.report.bike.cassette).toEqual(hutBike.cassette);
    expect((await api.get(`/api/jobs/${job.jobId}`)).body.status).toBe('running');
    const events = await news;
    expect(events.map(({ event }) => event)).toContain('ride');
    await api.settled();
    const after = (await api.get(`/api/bikes/${bikeId}`)).body;
    expect(after).toMatchObject({ staleReason: null, report: { bike: { cassette } } });
    expect(after.report.cogs.map(({ teeth }: Loose) => teeth)).toContain(52);
    await server.close();
  });
});

describe('the log', () => {
  it('has one line a request and a job, the stages when asked, and nothing of what was ridden', async () => {
    const server = await testServer({ level: 'debug' });
    const api = new CheckedApi(server.url);
    const bikeId = (await api.post('/api/bikes', { ...hutBike, name: 'Secret bike' })).body.id;
    const [ride] = madeRides(1);
    const { body } = await api.send(`/api/uploads?bike=${bikeId}`, [
      { ...ride, name: 'secret place.fit' },
      { name: 'secret.txt', bytes: new Uint8Array([1, 0]) },
    ]);
    await api.settled();
    const shift = (await api.get(`/api/rides/${body.files[0].rideId}`)).body.report.shifts[0];
    await api.put(`/api/rides/${body.files[0].rideId}/judgements/${shift.eventKey}`, {
      verdict: 'confirmed',
      note: 'secret note',
    });
    const { logged } = server;
    const uploads = logged.filter(({ route }) => route === '/api/uploads');
    expect(uploads).toEqual([
      expect.objectContaining({ msg: 'request', method: 'POST', status: 202, ms: expect.any(Number) }),
    ]);
    const analyses = logged.filter(({ job, msg }) => job === 'analyse' && msg === 'job done');
    expect(analyses).toMatchObject([{ rideId: body.files[0].rideId, ms: expect.any(Number) }]);
    expect(logged.filter(({ msg }) => msg === 'stage').map(({ stage }) => stage)).toEqual(
      expect.arrayContaining(['read', 'analyse', 'pack', 'conclude']),
    );
    const text = JSON.stringify(logged);
    expect(text.toLowerCase()).not.toContain('secret');
    expect(text).not.toContain(String(Date.parse(shift.at)));
    expect(text).not.toContain(String(shift.at));
    await server.close();
  });
});

describe('a report that is none', () => {
  it('is not kept: the one before it stays, and the page says why', async () => {
    const server = await testServer();
    const api = new CheckedApi(server.url);
    const bikeId = await api.addHutBike();
    await api.send(`/api/uploads?bike=${bikeId}`, madeRides(1));
    await api.settled();
    const { report } = (await api.get(`/api/bikes/${bikeId}`)).body;
    const { database } = server.services.sql;
    const { events: packed } = database.prepare('SELECT events FROM ride_analysis').get() as { events: Uint8Array };
    const findings = deserialize(packed) as { events: RideEvents };
    const probability = { clean: Number.NaN, late: Number.NaN, missed: Number.NaN, overshot: Number.NaN };
    const shifts = findings.events.shifts.map((shift) => ({ ...shift, probability }));
    const broken = serialize({ ...findings, events: { ...findings.events, shifts } });
    database.prepare('UPDATE ride_analysis SET events = ?').run(broken);
    await api.put(`/api/bikes/${bikeId}`, { ...hutBike, name: 'Another name' });
    await api.settled();
    const after = (await api.get(`/api/bikes/${bikeId}`)).body;
    expect(after.report).toEqual(report);
    expect(after.staleReason).toContain('fault in this program');
    await server.close();
  });
});

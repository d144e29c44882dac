import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { improveGuess, insertBike } from '../../server/store/bike-store.ts';
import type { Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { hutBike } from './made-rides.ts';

const { server, api } = await checkedServer();

const nobody = '0123456789abcdef';
const turned = {
  at: '2026-04-12T18:30:00Z',
  parameter: 'cable-tension',
  amount: 2,
  unit: 'clicks',
  note: 'after the hut ride',
};

describe('bikes', () => {
  it('are added, read, changed and removed', async () => {
    const added = await api.post('/api/bikes', hutBike);
    expect(added).toMatchObject({ status: 201, body: { bike: hutBike, bikeSource: 'given', sample: false, rides: 0 } });
    const { id } = added.body;
    await api.settled();
    const renamed = { ...hutBike, name: 'Dotterel' };
    const changed = await api.put(`/api/bikes/${id}`, renamed);
    expect(changed.status).toBe(202);
    expect((await api.get(`/api/jobs/${changed.body.jobId}`)).body.bikeId).toBe(id);
    await api.settled();
    expect((await api.get(`/api/jobs/${changed.body.jobId}`)).body.status).toBe('done');
    const read = await api.get(`/api/bikes/${id}`);
    expect(read.body).toMatchObject({
      bike: renamed,
      state: { word: 'too little data', topCause: null, troubleRate: null },
      report: null,
      adjustmentsLog: [],
      pending: 0,
      staleReason: null,
    });
    expect((await api.get('/api/bikes')).body.bikes.map((bike: { id: string }) => bike.id)).toContain(id);
    expect((await api.delete(`/api/bikes/${id}`)).status).toBe(204);
    expect((await api.get(`/api/bikes/${id}`)).status).toBe(404);
  });

  it('are not changed from a version that stands no more', async () => {
    const { id, version } = (await api.post('/api/bikes', hutBike)).body;
    const bike = `/api/bikes/${id}`;
    const first = { ...hutBike, rolloutMm: 2281 };
    expect((await api.put(`${bike}?version=${version}`, first)).status).toBe(202);
    const second = await api.put(`${bike}?version=${version}`, { ...hutBike, name: 'Of another window' });
    expect(second).toMatchObject({ status: 409, body: { error: { code: 'changed-meanwhile' } } });
    const { body: now } = await api.get(bike);
    expect(now.bike).toEqual(first);
    // work on the bike is no change of it
    await api.post(`${bike}/adjustments`, turned);
    await api.settled();
    expect((await api.get(bike)).body.version).toBe(now.version);
    expect((await api.put(`${bike}?version=${now.version}`, hutBike)).status).toBe(202);
    // who names none changes whatever stands
    expect((await api.put(bike, first)).status).toBe(202);
    expect((await api.put(`${bike}?revision=1`, first)).status).toBe(400);
  });

  it('that were guessed anew meanwhile take what the rider writes down', async () => {
    const { services } = server;
    const guess = { bike: { ...hutBike, name: 'Guessed' }, notes: [], certainty: 0.5 };
    const id = insertBike(services.sql, guess.bike, 'guessed');
    const { version } = (await api.get(`/api/bikes/${id}`)).body;
    improveGuess(services.sql, id, { ...guess, bike: { ...hutBike, rolloutMm: 2281 } });
    expect((await api.get(`/api/bikes/${id}`)).body.version).not.toBe(version);
    expect((await api.put(`/api/bikes/${id}?version=${version}`, hutBike)).status).toBe(202);
    expect((await api.put(`/api/bikes/${id}?version=${version}`, guess.bike)).status).toBe(409);
  });

  it('have entries in their log that are not changed from a version that stands no more', async () => {
    const { id } = (await api.post('/api/bikes', hutBike)).body;
    const { body: logged } = await api.post(`/api/bikes/${id}/adjustments`, turned);
    const one = `/api/bikes/${id}/adjustments/${logged.id}`;
    const from = `${one}?version=${logged.version}`;
    const { body: corrected } = await api.put(from, { ...turned, amount: 3 });
    const refused = { status: 409, body: { error: { code: 'changed-meanwhile' } } };
    expect(await api.put(from, { ...turned, note: 'of another window' })).toMatchObject(refused);
    expect(await api.delete(from)).toMatchObject(refused);
    const { adjustmentsLog } = (await api.get(`/api/bikes/${id}`)).body;
    expect(adjustmentsLog).toEqual([{ ...turned, id: logged.id, amount: 3, version: corrected.version }]);
    expect((await api.delete(`${one}?version=${corrected.version}`)).status).toBe(202);
  });

  it('of which none needs a hand more than another stand in order of name', async () => {
    const names = ['Fleet 10', 'Fleet 2', 'fleet 1', 'Fleet 3'];
    const ids: string[] = [];
    for (const name of names) ids.push((await api.post('/api/bikes', { ...hutBike, name })).body.id);
    const { bikes } = (await api.get('/api/bikes')).body;
    const listed = bikes.map(({ bike }: Loose) => bike.name).filter((name: string) => names.includes(name));
    expect(listed).toEqual(['fleet 1', 'Fleet 2', 'Fleet 3', 'Fleet 10']);
    for (const id of ids) await api.delete(`/api/bikes/${id}`);
  });

  it('keep a log of adjustments that can be added to, corrected and cut', async () => {
    const { id } = (await api.post('/api/bikes', hutBike)).body;
    const logged = await api.post(`/api/bikes/${id}/adjustments`, turned);
    expect(logged).toMatchObject({ status: 201, body: turned });
    const one = `/api/bikes/${id}/adjustments/${logged.body.id}`;
    expect(await api.put(one, { ...turned, amount: -1 })).toMatchObject({ status: 200, body: { amount: -1 } });
    const hanger = { at: '2026-04-01T10:00:00Z', parameter: 'hanger', amount: null, unit: 'done' };
    await api.post(`/api/bikes/${id}/adjustments`, hanger);
    await api.settled();
    const { body } = await api.get(`/api/bikes/${id}`);
    expect(body.adjustments).toBe(2);
    expect(body.adjustmentsLog.map(({ parameter }: { parameter: string }) => parameter)).toEqual([
      'hanger',
      'cable-tension',
    ]);
    expect(body.adjustmentMarks).toHaveLength(2);
    expect((await api.delete(one)).status).toBe(202);
    expect((await api.delete(one)).status).toBe(404);
    expect((await api.get(`/api/bikes/${id}`)).body.adjustmentsLog).toHaveLength(1);
  });

  it('read the times of adjustments in UTC, also those stored with another offset', async () => {
    const { id } = (await api.post('/api/bikes', hutBike)).body;
    const logged = await api.post(`/api/bikes/${id}/adjustments`, { ...turned, at: '2026-05-04T00:30:00+02:00' });
    expect(logged.body.at).toBe('2026-05-03T22:30:00Z');
    const store = new Database(join(server.data, 'cogwright.sqlite'));
    store.prepare('update adjustment set at = ? where id = ?').run('2026-05-04T00:30:00+02:00', logged.body.id);
    store.close();
    const { adjustmentsLog, adjustmentMarks } = (await api.get(`/api/bikes/${id}`)).body;
    expect(adjustmentsLog).toMatchObject([{ at: '2026-05-03T22:30:00Z' }]);
    expect(adjustmentMarks).toMatchObject([{ at: '2026-05-03T22:30:00Z' }]);
    await api.settled();
  });

  it('take an adjustment without seconds, and without a unit where a part was replaced', async () => {
    const { id } = (await api.post('/api/bikes', hutBike)).body;
    const chain = { at: '2026-06-01T11:00Z', parameter: 'chain' };
    expect(await api.post(`/api/bikes/${id}/adjustments`, chain)).toMatchObject({
      status: 201,
      body: { at: '2026-06-01T11:00:00Z', parameter: 'chain', amount: null, unit: 'done' },
    });
    const { unit: _, ...unmeasured } = turned;
    const { status, body } = await api.post(`/api/bikes/${id}/adjustments`, unmeasured);
    expect([status, body.error.message]).toEqual([
      400,
      'In the body, "unit" is missing: cable-tension is counted in clicks.',
    ]);
    await api.settled();
  });

  it('give a service sheet, also before anything is known', async () => {
    const { id } = (await api.post('/api/bikes', hutBike)).body;
    const { status, body } = await api.get(`/api/bikes/${id}/sheet`);
    expect(status).toBe(200);
    expect(body).toMatchObject({ bike: hutBike, rides: 0, state: { word: 'too little data' }, totals: { shifts: 0 } });
  });
});

describe('what does not fit is refused by name', () => {
  const wrong: [string, string, string, unknown, number, string][] = [
    ['a bike without cogs', 'POST', '/api/bikes', { name: 'x', chainrings: [32] }, 400, 'cassette'],
    ['a name of blanks', 'POST', '/api/bikes', { ...hutBike, name: '   ' }, 400, 'name'],
    ['a falling cassette', 'POST', '/api/bikes', { ...hutBike, cassette: [51, 45, 39, 33, 28] }, 400, 'cassette'],
    ['an unknown key', 'POST', '/api/bikes', { ...hutBike, wheels: 2 }, 400, 'wheels'],
    ['an id that is none', 'GET', '/api/bikes/..%2f..%2fetc', undefined, 404, 'There is no such bike."'],
    ['a ride id that is none', 'GET', '/api/rides/last/columns', undefined, 404, 'There is no such ride."'],
    [
      'an adjustment id that is none',
      'DELETE',
      `/api/bikes/${nobody}/adjustments/2`,
      undefined,
      404,
      'There is no such adjustment."',
    ],
    ['an unknown bike', 'GET', `/api/bikes/${nobody}`, undefined, 404, 'bike'],
    ['a change of an unknown bike', 'PUT', `/api/bikes/${nobody}`, hutBike, 404, 'bike'],
    ['removal of an unknown bike', 'DELETE', `/api/bikes/${nobody}`, undefined, 404, 'bike'],
    ['an unknown query', 'GET', '/api/bikes?sort=name', undefined, 400, 'sort'],
    ['a query that is no yes or no', 'GET', `/api/bikes/${nobody}?events=maybe`, undefined, 400, 'events'],
    ['a query given twice', 'GET', `/api/bikes/${nobody}?events=true&events=true`, undefined, 400, 'events'],
    ['an adjustment of an unknown bike', 'POST', `/api/bikes/${nobody}/adjustments`, turned, 404, 'bike'],
    ['a sheet of an unknown bike', 'GET', `/api/bikes/${nobody}/sheet`, undefined, 404, 'bike'],
    ['a job that never was', 'GET', `/api/jobs/${nobody}-1`, undefined, 404, 'job'],
    ['an unknown ride', 'GET', `/api/rides/${nobody}`, undefined, 404, 'ride'],
    ['columns of an unknown ride', 'GET', `/api/rides/${nobody}/columns`, undefined, 404, 'ride'],
    ['a file of an unknown ride', 'GET', `/api/rides/${nobody}/file`, undefined, 404, 'ride'],
    ['rides of something', 'GET', '/api/rides?bike=all', undefined, 400, 'bike'],
    ['progress of an unknown upload', 'GET', `/api/uploads/${nobody}/events`, undefined, 404, 'upload'],
    ['a judgement without a verdict', 'PUT', `/api/rides/${nobody}/judgements/shift-1`, {}, 400, 'verdict'],
    [
      'an event key that is none',
      'PUT',
      `/api/rides/${nobody}/judgements/x`,
      { verdict: 'confirmed' },
      400,
      'eventKey',
    ],
    ['an address that is not there', 'GET', '/api/nothing', undefined, 404, 'openapi'],
    ['a change of an address that is not there', 'PATCH', '/api/nothing', undefined, 404, 'openapi'],
  ];
  it.each(wrong)('%s', async (_what, method, path, json, status, named) => {
    const answer = await api.call(method, path, json);
    expect(answer.status).toBe(status);
    expect(JSON.stringify(answer.body.error)).toContain(named);
  });

  it.each([
    ['PATCH', '/api/bikes', 'GET, HEAD, POST'],
    ['DELETE', '/api/health', 'GET, HEAD'],
    ['PUT', `/api/bikes/${nobody}/adjustments`, 'POST'],
    ['POST', `/api/bikes/${nobody}`, 'GET, HEAD, PUT, DELETE'],
  ])('the method %s of %s, with those that there are', async (method, path, allowed) => {
    const response = await fetch(`${server.url}${path}`, { method });
    expect(response.status).toBe(405);
    expect(response.headers.get('allow')).toBe(allowed);
    const { error } = (await response.json()) as Loose;
    expect(error.code).toBe('wrong-method');
    expect(error.message).toContain(allowed);
    const options = await fetch(`${server.url}${path}`, { method: 'OPTIONS' });
    expect([options.status, options.headers.get('allow')]).toEqual([204, allowed]);
  });

  it.each([
    ['the wrong unit', { ...turned, unit: 'turns' }, 'unit'],
    ['an amount for a part', { ...turned, parameter: 'hanger', unit: 'done' }, 'amount'],
    ['a day without a time', { ...turned, at: '2026-04-12' }, 'at'],
  ])('an adjustment with %s', async (_what, adjustment, path) => {
    const { id } = (await api.post('/api/bikes', hutBike)).body;
    const answer = await api.post(`/api/bikes/${id}/adjustments`, adjustment);
    expect(answer).toMatchObject({ status: 400, body: { error: { code: 'invalid-request', details: [{ path }] } } });
    expect(answer.body.error.message).toMatch(new RegExp(`^In the body, "${path}"`));
  });
});

describe('the API document', () => {
  it('is OpenAPI 3.1 with every route, its parameters, bodies and answers', async () => {
    const { body } = await api.get('/api/openapi.json');
    expect(body.openapi).toBe('3.1.0');
    expect(JSON.stringify(body)).toMatch(/"sensorLagS":\{.{0,80}?"description":"How much later/);
    const bike = body.paths['/api/bikes/{id}'];
    expect(Object.keys(bike)).toEqual(['get', 'put', 'delete']);
    expect(bike.get.parameters).toMatchObject([
      { name: 'id', in: 'path', required: true },
      { name: 'events', in: 'query', required: false, schema: { enum: ['true', 'false'], default: 'true' } },
    ]);
    expect(bike.put.requestBody.content['application/json'].schema.required).toEqual([
      'name',
      'chainrings',
      'cassette',
    ]);
    expect(body.paths['/api/uploads'].post.requestBody.content).toHaveProperty('multipart/form-data');
    expect(
      body.paths['/api/rides/{id}'].get.responses['200'].content['application/json'].schema.properties,
    ).toHaveProperty('judgements');
  });

  it('tells the versions of program and engine', async () => {
    expect((await api.get('/api/health')).body).toEqual({
      ok: true,
      version: expect.stringMatching(/^\d+\.\d+\.\d+/),
      engineVersion: expect.any(String),
    });
  });
});

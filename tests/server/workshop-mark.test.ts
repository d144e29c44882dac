import { expect, it } from 'vitest';
import { moreUrgent } from '../../server/routes/bike-answer.ts';
import { DAY_MS } from '../../src/numeric/time-units.ts';
import type { Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { hutBike } from './made-rides.ts';

const { server, api } = await checkedServer();

const nobody = '0123456789abcdef';
const addNamed = async (name: string): Promise<string> => (await api.post('/api/bikes', { ...hutBike, name })).body.id;
const markOf = async (id: string): Promise<Loose> => (await api.get(`/api/bikes/${id}`)).body.workshopMark;

it('sets a bike aside by hand, changes what is said of it, and puts it back in use', async () => {
  const id = await addNamed('Set aside');
  const mark = `/api/bikes/${id}/workshop-mark`;
  expect(await markOf(id)).toBeNull();
  const { version } = (await api.get(`/api/bikes/${id}`)).body;
  const said = { on: '2026-05-03', note: 'Rear brake rubs' };
  expect(await api.put(mark, { ...said, note: '  Rear brake rubs ' })).toEqual({ status: 200, body: said });
  expect(await markOf(id)).toEqual(said);
  expect((await api.get(`/api/bikes/${id}/sheet`)).body.workshopMark).toEqual(said);
  // it is no change of what the bike is
  expect((await api.get(`/api/bikes/${id}`)).body.version).toBe(version);
  expect((await api.put(mark, {})).body).toEqual({ on: null, note: '' });
  expect(await markOf(id)).toEqual({ on: null, note: '' });
  expect((await api.delete(mark)).status).toBe(204);
  expect(await markOf(id)).toBeNull();
  expect((await api.delete(mark)).status).toBe(204);
});

it('says what is wrong with a mark that it does not take', async () => {
  const id = await addNamed('Not so');
  const refused = async (body: object): Promise<string> => {
    const { status, body: said } = await api.put(`/api/bikes/${id}/workshop-mark`, body);
    expect([status, said.error.code]).toEqual([400, 'invalid-request']);
    return said.error.message;
  };
  expect(await refused({ on: '2026-02-30' })).toContain('"on" is "2026-02-30": must be a day of the calendar');
  const inThreeDays = new Date(Date.now() + 3 * DAY_MS).toISOString().slice(0, 10);
  expect(await refused({ on: inThreeDays })).toContain('must not be a day still to come');
  expect(await refused({ note: 'x'.repeat(201) })).toContain('"note"');
  expect(await refused({ why: 'brakes' })).toContain('unknown key "why"');
  expect(await markOf(id)).toBeNull();
  expect((await api.put(`/api/bikes/${nobody}/workshop-mark`, {})).status).toBe(404);
  expect((await api.delete(`/api/bikes/${nobody}/workshop-mark`)).status).toBe(404);
});

it('lists what is set aside before what is not, and lets go of the mark with the bike', async () => {
  const [a, b] = [await addNamed('A 1'), await addNamed('A 2')];
  await api.put(`/api/bikes/${b}/workshop-mark`, { note: 'Wheel out of true' });
  const listed: Loose[] = (await api.get('/api/bikes')).body.bikes;
  const place = (id: string): number => listed.findIndex((bike) => bike.id === id);
  expect(place(b)).toBeLessThan(place(a));
  await api.delete(`/api/bikes/${b}`);
  const left = server.services.sql.database.prepare('select count(*) from workshop_mark where bike_id = ?');
  expect(left.pluck().get(b)).toBe(0);
});

it('goes before every state, but behind what can hurt a rider', () => {
  const state = {
    word: 'fine',
    dangers: [] as string[],
    faultProbability: 0,
    chainsLost: 0,
    troubleRate: 0,
    judgedShifts: 9,
  };
  const bike = (change: object, set: boolean) =>
    ({ state: { ...state, ...change }, workshopMark: set ? { on: null, note: '' } : null }) as never;
  const inOrder = [
    bike({ dangers: ['It came off.'] }, true),
    bike({ dangers: ['It came off.'] }, false),
    bike({ word: 'service' }, true),
    bike({}, true),
    bike({ word: 'service' }, false),
    bike({}, false),
  ];
  expect(inOrder.toReversed().sort(moreUrgent)).toEqual(inOrder);
});

import { expect, it } from 'vitest';
import { checkedServer } from './checked-server.ts';
import { hutBike, madeRides } from './made-rides.ts';

const { api } = await checkedServer();

it('says of its figures, as the bike’s page does, whether they are still to be worked out again', async () => {
  const bikeId = await api.addHutBike();
  const said = async (path: string) => (await api.get(`/api/bikes/${bikeId}${path}`)).body;
  await api.send(`/api/uploads?bike=${bikeId}`, madeRides(2));
  const waiting = { pending: expect.any(Number), staleReason: expect.stringMatching(/ still to be analysed\.$/) };
  expect([await said('/sheet'), await said('')]).toMatchObject([waiting, waiting]);
  await api.settled();
  const done = { pending: 0, staleReason: null };
  expect([await said('/sheet'), await said('')]).toMatchObject([done, done]);
});

it('gives the tallies from when on shifts count, beside those of all rides', async () => {
  const { id: bikeId } = (await api.post('/api/bikes', { ...hutBike, name: 'Put right' })).body;
  const rides = madeRides(2, { minutes: 25 });
  await api.send(`/api/uploads?bike=${bikeId}`, rides);
  await api.settled();
  const sheet = async () => (await api.get(`/api/bikes/${bikeId}/sheet`)).body;
  expect((await sheet()).cogsSince).toBeNull();
  const { report } = (await api.get(`/api/bikes/${bikeId}`)).body;
  const between = new Date(Date.parse(report.rides[1].start) - 3_600_000).toISOString();
  await api.post(`/api/bikes/${bikeId}/adjustments`, {
    ...{ at: between, parameter: 'cable-tension', amount: 1, unit: 'clicks', note: '' },
  });
  await api.settled();
  const { cogs, cogsSince, state } = await sheet();
  const judged = (tallies: { shifts: number }[]): number => tallies.reduce((sum, { shifts }) => sum + shifts, 0);
  expect(state).toMatchObject({ sinceAdjustment: true, judgedShifts: judged(cogsSince) });
  expect(judged(cogsSince)).toBeLessThan(judged(cogs));
});

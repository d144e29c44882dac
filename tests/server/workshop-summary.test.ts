import { expect, it } from 'vitest';
import { checkedServer } from './checked-server.ts';
import { madeRides } from './made-rides.ts';

const { api } = await checkedServer();

it('a bike’s summary says what the first sentence of its next step is about', async () => {
  const bikeId = await api.addHutBike();
  await api.send(`/api/uploads?bike=${bikeId}`, madeRides(2, { seed: 3, minutes: 40 }));
  await api.settled();
  const [summary] = (await api.get('/api/bikes')).body.bikes;
  const { suggestion } = (await api.get(`/api/bikes/${bikeId}`)).body.report.diagnosis;
  expect(suggestion.parameter).toBe('cable-tension');
  expect(summary).toMatchObject({ work: suggestion.steps[0], workPart: 'cable-tension' });
});

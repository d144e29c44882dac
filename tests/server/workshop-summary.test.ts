import { expect, it } from 'vitest';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { checkedServer } from './checked-server.ts';
import { hutBike, madeRides } from './made-rides.ts';

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

it('a bike’s summary says once that trouble did not show, where it shifts well for no logged reason', async () => {
  const mended = simulateRides({
    cause: 'cable-tension-low',
    severity: 0.8,
    seed: 3,
    rides: 3,
    durationS: 2700,
    terrain: 'hilly',
    speedSource: 'wheel',
    bike: hutBike,
    work: 'cure',
  });
  const bikeId = await api.addHutBike();
  const files = mended.map(({ name, bytes }) => ({ name: `${name}.fit`, bytes: bytes.fit as Uint8Array }));
  await api.send(`/api/uploads?bike=${bikeId}`, files);
  await api.settled();
  const { body } = await api.get('/api/bikes');
  const { state, work } = body.bikes.find(({ id }: { id: string }) => id === bikeId);
  expect(state.word).toBe('watch');
  expect(state.reasons[0]).toMatch(/^The trouble (hardly showed|did not show) in the rides since/);
  expect(work).toBe('Turn nothing. It may come back.');
});

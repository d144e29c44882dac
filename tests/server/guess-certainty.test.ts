import { beforeAll, expect, it } from 'vitest';
import { analyse } from '../../src/analyse.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { CheckedApi } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { madeRides, valleyBike } from './made-rides.ts';
import { testServer } from './test-server.ts';

const { server, api } = await checkedServer();
let bikeId: string;
const [ride] = madeRides(1, { seed: 3, bike: valleyBike });
const likely = analyse([readRideLog(ride.name, ride.bytes)], { bike: null, adjustments: [] }).bikeCertainty;
beforeAll(async () => {
  await api.send('/api/uploads', [ride]);
  await api.settled();
  [{ id: bikeId }] = (await api.get('/api/bikes')).body.bikes;
});

const certainty = async (of: CheckedApi, id: string): Promise<number | null> =>
  (await of.get(`/api/bikes/${id}`)).body.report.bikeCertainty;

it('how likely a guessed bike is right stands in its report, as on the command line', async () => {
  expect(likely).toBeGreaterThan(0);
  expect(await certainty(api, bikeId)).toBe(likely);
});

it('is carried along in an archive', async () => {
  const other = await testServer();
  try {
    const there = new CheckedApi(other.url);
    const bytes = new Uint8Array(await (await fetch(`${server.url}/api/export`)).arrayBuffer());
    await there.send('/api/import', [{ name: 'archive.zip', bytes }]);
    await there.settled();
    expect(await certainty(there, bikeId)).toBe(likely);
  } finally {
    await other.close();
  }
});

it('is said no longer once the bike was written down', async () => {
  await api.put(`/api/bikes/${bikeId}`, valleyBike);
  await api.settled();
  expect(await certainty(api, bikeId)).toBeNull();
});

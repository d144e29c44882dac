import { beforeAll, describe, expect, it } from 'vitest';
import type { CheckedApi, Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { cutRide, hutBike, madeRides } from './made-rides.ts';

const { api } = await checkedServer();
let first: string;
let second: string;
beforeAll(async () => {
  [first, second] = [await api.addHutBike(), await api.addHutBike()];
});

const rides = madeRides(3, { seed: 31 });

/** Sends files for any bike and gives the bikes of their rides when all is worked out. */
async function bikesOf(files: Parameters<CheckedApi['send']>[1]): Promise<string[]> {
  const { body } = await api.send('/api/uploads?bike=auto', files);
  await api.settled();
  return Promise.all(
    body.files.map(async ({ rideId }: Loose) => (await api.get(`/api/rides/${rideId}`)).body.bikeId as string),
  );
}

describe('a ride that fits several bikes as well', () => {
  it('goes to none of them, but to one where such rides gather, which says so', async () => {
    const [gathering, same] = await bikesOf(rides.slice(0, 2));
    expect([first, second]).not.toContain(gathering);
    expect([same, ...(await bikesOf(rides.slice(2)))]).toEqual([gathering, gathering]);
    const { body } = await api.get(`/api/bikes/${gathering}`);
    expect(body).toMatchObject({ rides: 3, bikeSource: 'guessed' });
    expect(body.report.bikeNotes).toContainEqual({
      code: 'bike-unclear',
      message: expect.stringContaining(`${hutBike.name}, ${hutBike.name}`),
    });
    expect((await api.get(`/api/rides?bike=${first}`)).body.rides).toEqual([]);
    await api.delete(`/api/bikes/${gathering}?withRides=true`);
  });

  it('goes to the bike on which a ride with all its records is, or a stretch of it, and does not count twice', async () => {
    await api.send(`/api/uploads?bike=${second}`, [rides[0], cutRide(rides[1], 'short.fit', 60, 300)]);
    await api.settled();
    const bikes = await bikesOf([cutRide(rides[0], 'cut.fit', 30, 420), cutRide(rides[1], 'longer.fit', 0, 400)]);
    expect(bikes).toEqual([second, second]);
    const copies = (await api.get(`/api/rides?bike=${second}`)).body.rides.filter(({ warnings }: Loose) =>
      warnings.some(({ code }: Loose) => code === 'duplicate'),
    );
    expect(copies.map(({ file }: Loose) => file).sort()).toEqual(['cut.fit', 'short.fit']);
  });

  it('and one that shows nothing is not taken for one of a bike that has the teeth which stand for unknown ones', async () => {
    const rows = Array.from({ length: 300 }, (_, i) => `${i},7.5`).join('\n');
    const bytes = new TextEncoder().encode(`time_s,speed_mps\n${rows}\n`);
    const [bikeId] = await bikesOf([{ name: 'nothing.csv', bytes }]);
    expect([first, second]).not.toContain(bikeId);
    const later = new TextEncoder().encode(`time_s,speed_mps\n${rows}\n300,7.6\n`);
    expect(await bikesOf([{ name: 'nothing more.csv', bytes: later }])).toEqual([bikeId]);
  });
});

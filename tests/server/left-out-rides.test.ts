import { expect, it } from 'vitest';
import { findReport } from '../../server/store/report-store.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import type { Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { hoursLater, hutBike, type MadeRide, madeRides, valleyBike } from './made-rides.ts';

const { server, api } = await checkedServer();

/** A bike of fewer gears than the hut bike has. */
const elevenCogs: Bike = {
  name: 'Plover, valley bike 2',
  chainrings: [40],
  cassette: [11, 13, 15, 17, 19, 21, 24, 28, 32, 37, 42],
  rolloutMm: 2150,
  actuation: 'cable',
};

/** What a bike shows with these rides sent to it. */
async function shown(rides: readonly MadeRide[], bike: Bike = elevenCogs) {
  const bikeId = (await api.post('/api/bikes', bike)).body.id;
  await api.send(`/api/uploads?bike=${bikeId}`, rides);
  await api.settled();
  const { report, ...page } = (await api.get(`/api/bikes/${bikeId}`)).body;
  const whole = (await api.get(`/api/bikes/${bikeId}?events=true`)).body.report;
  const { generatedAt: _, ...sheet } = (await api.get(`/api/bikes/${bikeId}/sheet`)).body;
  const { rolloutMm } = JSON.parse(findReport(server.services.sql, bikeId)?.summary ?? '{}');
  return { report, page, whole, sheet, rolloutMm };
}

it("a ride that looks like another bike's is marked, and the bike's page and sheet rest on the others alone", async () => {
  const own = madeRides(2, { bike: elevenCogs, seed: 31 });
  const other = hoursLater(madeRides(1, { bike: hutBike, seed: 32, minutes: 12 })[0], 5000);
  const both = await shown([...own, other]);
  const without = await shown([]);
  expect(without.sheet).toMatchObject({ rides: 0, firstRideAt: null, ridesAt: [] });
  expect(both.sheet.ridesAt).toHaveLength(2);
  expect([both.sheet.ridesAt[0], both.sheet.ridesAt.at(-1)]).toEqual([both.sheet.firstRideAt, both.sheet.lastRideAt]);
  for (const { rides } of [both.report, both.whole])
    expect(rides.map(({ file, leftOut }: Loose) => [file, leftOut])).toEqual([
      ...own.map(({ name }) => [name, null]),
      [other.name, 'another-bike'],
    ]);
  for (const { id } of (await api.get('/api/rides')).body.rides) await api.delete(`/api/rides/${id}`);
  const alone = await shown(own);
  expect(alone.page.trend).toHaveLength(2);
  expect(alone.sheet.totals.shifts).toBeGreaterThan(20);
  const rates = ({ page }: typeof both) => page.trend.map(({ rideId: _, ...rate }: Loose) => rate);
  expect(rates(both)).toEqual(rates(alone));
  for (const part of ['state', 'loadSplitNm', 'perLoad', 'perPeriod'])
    expect(both.page[part], part).toEqual(alone.page[part]);
  expect(both.report.cogs).toEqual(alone.report.cogs);
  expect(both.sheet).toEqual(alone.sheet);
  expect(both.rolloutMm).toBe(alone.rolloutMm);
});

it("a bike whose every ride looks like another bike's says so, and what to do", async () => {
  for (const { id } of (await api.get('/api/rides')).body.rides) await api.delete(`/api/rides/${id}`);
  const { page, report } = await shown(madeRides(1, { bike: hutBike, seed: 32, minutes: 12 }), valleyBike);
  expect(report.rides.map(({ leftOut }: Loose) => leftOut)).toEqual(['another-bike']);
  expect(page.state).toMatchObject({
    word: 'too little data',
    reasons: [expect.stringMatching(/^Its only ride is left out: .* Move it to the bike that it was ridden on;/)],
  });
});

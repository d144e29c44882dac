import { describe, expect, it } from 'vitest';
import { adjustmentSchema } from '../../src/adjustments/adjustment.ts';
import { analyse } from '../../src/analyse.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { hutBike, type MadeRide, tinyRide, valleyBike } from './made-rides.ts';

const { api } = await checkedServer();

const entry = (parameter: string, amount: number | null, unit: string, day = 12) =>
  adjustmentSchema.parse({ at: `2026-04-${day}T18:30:00Z`, parameter, amount, unit, note: '' });
const offset = entry('index-offset', 2, 'steps');
const tension = entry('cable-tension', 1, 'clicks', 13);
const housing = entry('cable-and-housing', null, 'done', 14);

/** A minute of riding that names cogs: its bike is taken for electronic, since it wrote gear records. */
function shortRide(teeth: readonly number[]): MadeRide {
  const rows = Array.from({ length: 60 }, (_, s) => `${s},4,${s % 20 === 0 ? teeth[s / 20] : ''}`);
  const bytes = new TextEncoder().encode(['time_s,speed_mps,rear_teeth', ...rows].join('\n'));
  return { name: `short-${teeth.join('-')}.csv`, bytes };
}

async function guessedFrom(ride: MadeRide): Promise<string> {
  const { body } = await api.send('/api/uploads?bike=new', [ride]);
  await api.settled();
  return (await api.get(`/api/rides/${body.files[0].rideId}`)).body.bikeId;
}

/** What the list, the page, its report and the sheet say of the bike's actuation, once all is worked out. */
async function saidOf(id: string): Promise<{ actuations: string[]; report: Loose }> {
  await api.settled();
  const listed = (await api.get('/api/bikes')).body.bikes.find((bike: Loose) => bike.id === id);
  const page = (await api.get(`/api/bikes/${id}`)).body;
  const sheet = (await api.get(`/api/bikes/${id}/sheet`)).body;
  const actuations = [listed, page, page.report, sheet].map(({ bike }) => bike.actuation as string);
  return { actuations: [...new Set(actuations)], report: page.report };
}

describe('the actuation of a bike that was guessed', () => {
  it.each([
    ['electronic', shortRide([24, 28, 24]), tension, 'cable'],
    ['cable', tinyRide(901), offset, 'electronic'],
  ])('%s, gives way to what is logged, and comes back without it', async (guessed, ride, logged, told) => {
    const id = await guessedFrom(ride);
    expect((await saidOf(id)).actuations).toEqual([guessed]);
    const answer = await api.post(`/api/bikes/${id}/adjustments`, logged);
    expect(answer.status).toBe(201);
    const { actuations, report } = await saidOf(id);
    expect(actuations).toEqual([told]);
    const local = analyse([readRideLog(ride.name, ride.bytes)], { bike: null, adjustments: [logged] });
    expect(report.bikeNotes).toEqual(local.bikeNotes);
    expect(report.diagnosis).toEqual(JSON.parse(JSON.stringify(local.diagnosis)));
    await api.delete(`/api/bikes/${id}/adjustments/${answer.body.id}`);
    expect((await saidOf(id)).actuations).toEqual([guessed]);
  });

  it('is told by the last entry that only one kind has, also where one was corrected', async () => {
    const id = await guessedFrom(shortRide([21, 24, 28]));
    const first = await api.post(`/api/bikes/${id}/adjustments`, housing);
    await api.post(`/api/bikes/${id}/adjustments`, offset);
    expect((await saidOf(id)).actuations).toEqual(['cable']);
    const corrected = await api.put(`/api/bikes/${id}/adjustments/${first.body.id}`, {
      ...housing,
      at: '2026-04-01T08:00:00Z',
    });
    expect(corrected.status).toBe(200);
    expect((await saidOf(id)).actuations).toEqual(['electronic']);
  });

  it('is no longer a guess once the bike was written down: the wrong entry is refused', async () => {
    const id = await guessedFrom(shortRide([18, 21, 24]));
    await api.put(`/api/bikes/${id}`, { ...valleyBike, name: 'Written down' });
    expect((await api.post(`/api/bikes/${id}/adjustments`, tension)).status).toBe(400);
    const given = await api.addHutBike();
    const refused = await api.post(`/api/bikes/${given}/adjustments`, offset);
    expect(refused.body.error.message).toContain(`a bike with ${hutBike.actuation} actuation has no index-offset`);
  });
});

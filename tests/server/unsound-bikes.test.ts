import { expect, it } from 'vitest';
import { soundGuess } from '../../server/work/sound-guess.ts';
import { drivetrainUnknown } from '../../src/gear-trace/guess/unknown-drivetrain.ts';
import { CheckedApi, type Loose } from './checked-api.ts';
import { hutBike, tinyRide } from './made-rides.ts';
import { temporaryFolder, testServer } from './test-server.ts';

/** A ride on which two cogs of sizes no cassette has took turns. */
function strangeRide(): { name: string; bytes: Uint8Array } {
  const lines = ['time_s,speed_mps,cadence_rpm,rear_teeth'];
  for (let second = 0; second < 300; second++) lines.push(`${second},4,80,${Math.floor(second / 30) % 2 ? 58 : 52}`);
  return { name: 'strange.csv', bytes: new TextEncoder().encode(`${lines.join('\n')}\n`) };
}

it('a guess that is no bike counts as none', () => {
  const guess = { bike: { ...hutBike, cassette: [52, 58, 68, 79, 92] }, certainty: 0.3, madeUpCogs: [], notes: [] };
  expect(soundGuess(guess)).toMatchObject({ certainty: 0 });
  expect(drivetrainUnknown(soundGuess(guess).notes)).toBe(true);
  const sound = { ...guess, bike: hutBike };
  expect(soundGuess(sound)).toBe(sound);
});

it('a ride that names sizes no cassette has is placed, and the bikes can still be listed', async () => {
  const server = await testServer();
  const api = new CheckedApi(server.url);
  expect((await api.send('/api/drivetrain-guess', [strangeRide()])).status).toBeLessThan(500);
  await api.send('/api/uploads', [strangeRide()]);
  await api.settled();
  expect((await api.get('/api/bikes')).body.bikes).toMatchObject([{ bikeSource: 'guessed', rides: 1 }]);
  await server.close();
});

it('a stored bike that is none stands as one whose drivetrain is not known, until it is described', async () => {
  const folder = temporaryFolder();
  const data = `${folder.path}/data`;
  const first = await testServer({ data });
  let api = new CheckedApi(first.url);
  const sound = (await api.post('/api/bikes', { ...hutBike, name: 'Sound' })).body.id;
  const odd = (await api.post('/api/bikes', { ...hutBike, name: 'Odd' })).body.id;
  const torn = await api.addHutBike();
  const write = first.services.sql.database.prepare('UPDATE bike SET spec = ? WHERE id = ?');
  const oddSpec = JSON.stringify({ ...hutBike, name: 'Odd', cassette: [52, 58, 68, 79, 92] });
  write.run(oddSpec, odd);
  write.run('{"name":', torn);
  await api.send(`/api/uploads?bike=${odd}`, [tinyRide(1)]);
  await api.settled();
  await first.close();

  const second = await testServer({ data });
  api = new CheckedApi(second.url);
  expect(second.logged.filter(({ level }) => level === 50).map(({ bikeId }) => bikeId)).toEqual([odd, torn]);
  const { bikes } = (await api.get('/api/bikes')).body;
  const nameOf = (id: string): string => bikes.find((bike: Loose) => bike.id === id).bike.name;
  expect([sound, odd, torn].map(nameOf)).toEqual(['Sound', 'Odd', 'unknown bike']);
  expect((await fetch(`${second.url}/api/export`)).status).toBe(200);
  const { report } = (await api.get(`/api/bikes/${odd}`)).body;
  expect(drivetrainUnknown(report.bikeNotes)).toBe(true);
  expect(report.bikeNotes[0].message).toContain('What is stored of this bike cannot be read');
  const stored = second.services.sql.database.prepare('SELECT spec FROM bike WHERE id = ?');
  expect(stored.get(odd)).toEqual({ spec: oddSpec });
  expect((await api.put(`/api/bikes/${odd}`, { ...hutBike, name: 'Odd' })).status).toBe(202);
  await api.settled();
  const after = (await api.get(`/api/bikes/${odd}`)).body;
  expect(after).toMatchObject({ bike: { cassette: hutBike.cassette }, report: { bikeNotes: [] } });
  await second.close();
  folder.remove();
});

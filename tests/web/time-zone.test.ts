import { afterAll, beforeAll, expect, it, vi } from 'vitest';

const zoneBefore = process.env.TZ;
let zone: typeof import('../../web/words/time-zone.ts');
beforeAll(async () => {
  process.env.TZ = 'Europe/Zurich';
  vi.resetModules();
  zone = await import('../../web/words/time-zone.ts');
});
afterAll(() => {
  if (zoneBefore === undefined) delete process.env.TZ;
  else process.env.TZ = zoneBefore;
});

const warnings = [{ code: 'no-time-zone' }];
const ride = { start: '2026-06-01T08:00:00.000Z', durationS: 3600, warnings };

it('names the zone of the page', () => {
  expect(zone.ownZoneSentence()).toBe('Times are those of this browser’s time zone, Europe/Zurich.');
});

it('says of a ride whose file names no zone how its times were taken', () => {
  expect(zone.zoneRemark(ride)).toBe('Its file names no time zone: 08:00 there was taken as UTC');
  expect(zone.zoneRemark({ ...ride, warnings: [{ code: 'no-speed' }] })).toBeNull();
  expect(zone.zoneRemark({ ...ride, start: null })).toBeNull();
});

it('doubts an adjustment only as far from such a ride as clocks stand apart', () => {
  const doubt = (at: string, rides = [ride]) => zone.zoneDoubt(at, rides);
  const said =
    'It is not sure whether the ride of 1 June 2026, 10:00 was before or after it: its file names no time zone and was taken as UTC.';
  for (const at of ['2026-05-31T18:00:01Z', '2026-06-01T07:30:00Z', '2026-06-01T20:59:59Z'])
    expect(doubt(at)).toBe(said);
  for (const at of ['2026-05-31T18:00:00Z', '2026-06-01T21:00:00Z']) expect(doubt(at)).toBeNull();
  expect(doubt('2026-06-01T07:30:00Z', [{ ...ride, warnings: [] }])).toBeNull();
  expect(doubt('2026-06-01T07:30:00Z', [{ ...ride, start: '1970-01-01T00:00:00.000Z' }])).toBeNull();
  expect(doubt('2026-06-01T07:30:00Z', [ride, ride])).toContain('whether 2 rides near it, such as that of 1 June 2026');
});

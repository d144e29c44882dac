import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { analyseKeptRide } from '../../server/work/analyse-kept-ride.ts';
import { intakeRide } from '../../server/work/intake-ride.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { rideToComeCode } from '../../src/ride-log/still-to-come.ts';
import type { Loose } from './checked-api.ts';
import { hutBike } from './made-rides.ts';
import { placedFit } from './positions/placed-fit.ts';
import { temporaryFolder } from './test-server.ts';

let folder: ReturnType<typeof temporaryFolder>;
beforeEach(() => {
  folder = temporaryFolder();
});
afterEach(() => folder.remove());

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

it.each([
  ['with a speed', true],
  ['whose speed is worked out from its positions', false],
])('a ride %s is known by the file as it was sent and loses nothing but its positions', (_what, speed) => {
  const bytes = placedFit({ speed }).segment();
  const [path, keptPath] = [join(folder.path, 'sent'), join(folder.path, 'kept')];
  writeFileSync(path, bytes);
  const { ride } = intakeRide({ path, keptPath, file: 'ride.fit', keepPositions: false }) as Loose;
  const kept = readFileSync(keptPath);
  expect(ride).toMatchObject({ sha256: sha256(bytes), keptSha256: sha256(kept), positions: 'dropped' });
  const said = ride.warnings.map(({ code }: Loose) => code);
  expect(said).not.toContain('crc-wrong');
  expect(said.includes('speed-from-positions')).toBe(!speed);
  expect(readRideLog('ride.fit', kept).warnings.map(({ code }) => code)).toEqual(said);
  expect(readRideLog('ride.fit', kept).speedSource).toBe(readRideLog('ride.fit', bytes).speedSource);
});

it('a ride packed with gzip is kept unpacked, as the same ride is that was sent unpacked', () => {
  const rows = Array.from({ length: 60 }, (_, s) => `2026-04-02T08:00:${String(s).padStart(2, '0')}Z,5,80`);
  const bytes = Buffer.from(['time,speed_mps,cadence_rpm', ...rows].join('\n'));
  const taken = (name: string, sent: Uint8Array): Loose => {
    const [path, keptPath] = [join(folder.path, `sent-${name}`), join(folder.path, `kept-${name}`)];
    writeFileSync(path, sent);
    return intakeRide({ path, keptPath, file: name, keepPositions: false });
  };
  const packed = taken('ride.csv.gz', gzipSync(bytes));
  expect(packed.ride).toMatchObject({ format: 'csv', sha256: sha256(gzipSync(bytes)) });
  expect(packed.ride.keptSha256).toBe(taken('ride.csv', bytes).ride.keptSha256);
  expect(taken('bad.csv.gz', gzipSync(bytes).subarray(0, 12)).fault.code).toBe('packed');
});

it('a ride of a day still to come says so as it comes in and on its own page', () => {
  const rows = Array.from({ length: 60 }, (_, s) => `2150-04-02T08:00:${String(s).padStart(2, '0')}Z,5,80`);
  const bytes = ['time,speed_mps,cadence_rpm', ...rows].join('\n');
  const [path, keptPath] = [join(folder.path, 'sent'), join(folder.path, 'kept')];
  writeFileSync(path, bytes);
  const { ride } = intakeRide({ path, keptPath, file: 'ride.csv', keepPositions: false }) as Loose;
  expect(ride.warnings.map(({ code }: Loose) => code)).toContain(rideToComeCode);
  const { analysis } = analyseKeptRide({ path: keptPath, file: 'ride.csv', bike: hutBike }) as Loose;
  expect(JSON.parse(gunzipSync(analysis.report).toString()).warnings).toContainEqual(
    expect.objectContaining({ code: rideToComeCode }),
  );
});

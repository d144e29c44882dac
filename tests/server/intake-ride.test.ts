import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { intakeRide } from '../../server/work/intake-ride.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { Loose } from './checked-api.ts';
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

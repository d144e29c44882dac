import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseAdjustments } from '../../src/adjustments/parse-adjustments.ts';
import { parseBike } from '../../src/drivetrain/parse-bike.ts';
import { type TakingServices, takeRide } from '../intake/take-ride.ts';
import type { Services } from '../services.ts';
import { insertAdjustment, listAdjustments } from '../store/adjustment-store.ts';
import { findBike, insertBike } from '../store/bike-store.ts';
import { readMeta, writeMeta } from '../store/meta-store.ts';
import type { Sql } from '../store/sql.ts';

const rideFile = /\.(fit|tcx|gpx|csv)$/i;

/**
 * Loads the invented bikes of a samples folder (each a folder with bike.json, rides and adjustments.csv), once: on the
 * first start. A bike's id follows from its folder's name, so that a load which was cut short goes on where it stopped,
 * and the samples of two machines are the same bikes.
 */
export async function loadSamples(
  services: TakingServices & Pick<Services, 'queue'>,
  samples: string,
): Promise<{ bikes: number; rides: number }> {
  const { sql } = services;
  const loaded = { bikes: 0, rides: 0 };
  if (readMeta(sql, 'samples-loaded') !== undefined || !existsSync(samples)) return loaded;
  for (const entry of readdirSync(samples, { withFileTypes: true })) {
    const folder = join(samples, entry.name);
    if (!entry.isDirectory() || !existsSync(join(folder, 'bike.json'))) continue;
    const bikeId = sampleId(entry.name);
    sql.transaction(() => addBike(sql, bikeId, folder));
    loaded.bikes++;
    for (const name of readdirSync(folder).sort()) {
      if (!rideFile.test(name) || name === 'adjustments.csv') continue;
      const to = { uploadId: null, bikeId, keepPositions: false };
      const taken = await takeRide(services, { name, path: join(folder, name) }, to);
      // Left off here, and gone on with at the next start.
      if (taken.status === 'refused' && taken.code === 'stopped') return loaded;
      if (taken.status === 'refused')
        services.log.warn({ sample: entry.name, code: taken.code }, 'a sample ride was refused');
      else loaded.rides++;
    }
    services.queue.tellBike(bikeId);
  }
  sql.transaction(() => writeMeta(sql, 'samples-loaded', new Date().toISOString()));
  return loaded;
}

const sampleId = (name: string): string => createHash('sha256').update(`sample ${name}`).digest('hex').slice(0, 16);

function addBike(sql: Sql, id: string, folder: string): void {
  if (!findBike(sql, id)) {
    const bike = parseBike('bike.json', readFileSync(join(folder, 'bike.json'), 'utf8'));
    insertBike(sql, bike, 'given', { id, sample: true });
  }
  const log = join(folder, 'adjustments.csv');
  if (!existsSync(log) || listAdjustments(sql, id).length > 0) return;
  for (const adjustment of parseAdjustments('adjustments.csv', readFileSync(log, 'utf8')))
    insertAdjustment(sql, id, adjustment);
}

import { randomBytes } from 'node:crypto';
import { newId } from '../../server/store/new-id.ts';
import { insertRide, type NewRide } from '../../server/store/ride-store.ts';
import type { Sql } from '../../server/store/sql.ts';

/** Registers a ride without a file, on a bike or waiting for one, and gives its id. `change`: what of it is not as usual. */
export function registerRide(sql: Sql, bikeId: string | null = null, change: Partial<NewRide> = {}): string {
  const id = newId();
  insertRide(sql, {
    id,
    bike_id: bikeId,
    upload_id: null,
    file: 'ride.csv',
    sha256: randomBytes(32).toString('hex'),
    kept_sha256: randomBytes(32).toString('hex'),
    bytes: 1,
    kept_bytes: 1,
    format: 'csv',
    positions: 'none',
    start_ms: 0,
    duration_s: 60,
    recorded_teeth: '{"rear":[],"front":[]}',
    warnings: '[]',
    ...change,
  });
  return id;
}

import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import { storageRefusal } from '../http/error-answer.ts';
import { notFound } from '../http/request-error.ts';
import type { Services } from '../services.ts';
import { findBike } from '../store/bike-store.ts';
import { newId } from '../store/new-id.ts';
import { findRideByContent, insertRide } from '../store/ride-store.ts';
import type { IntakenRide } from '../work/tasks.ts';
import { workFault } from '../work/work-fault.ts';
import { WorkFailed } from '../work/worker-pool.ts';
import type { ReceivedFile } from './receive-files.ts';

/** What became of a file that was sent. */
export type TakenRide =
  | { readonly name: string; readonly status: 'queued'; readonly rideId: string }
  | { readonly name: string; readonly status: 'duplicate'; readonly rideId: string; readonly message: string }
  | { readonly name: string; readonly status: 'refused'; readonly code: string; readonly message: string };

/** Where a ride is to go: onto a bike, or as its upload says. */
export interface Destination {
  readonly uploadId: string | null;
  readonly bikeId: string | null;
  readonly keepPositions: boolean;
  /** SHA-256 of the file as it was first sent, where this one comes from an archive that has it without positions. */
  readonly firstSha256?: string;
}

/** What taking a ride in needs of the server. */
export type TakingServices = Pick<Services, 'folder' | 'sql' | 'raw' | 'intake' | 'log'>;

/**
 * Takes a file in as a ride: reads it in a worker, which refuses what is no ride and writes what will be kept; then
 * moves that into the raw store and registers it, in one turn. When this returns, the ride survives anything.
 */
export async function takeRide(services: TakingServices, file: ReceivedFile, to: Destination): Promise<TakenRide> {
  const keptPath = join(services.folder.incoming, `${newId()}.kept`);
  try {
    const answer = await services.intake.run('intake', {
      path: file.path,
      keptPath,
      file: file.name,
      keepPositions: to.keepPositions,
    });
    if (answer.fault) return { name: file.name, status: 'refused', ...answer.fault };
    const ride = { ...answer.ride, sha256: to.firstSha256 ?? answer.ride.sha256 };
    return { name: file.name, ...register(services, file.name, keptPath, ride, to) };
  } catch (error) {
    const refusal = error instanceof CogwrightError ? error : storageRefusal(error);
    if (refusal)
      return { name: file.name, status: 'refused', code: refusal.code, message: `${file.name}: ${refusal.message}` };
    if (!(error instanceof WorkFailed)) throw error;
    services.log.warn({ code: error.code, err: error.cause }, 'a file could not be read');
    const fault = workFault(file.name, error) ?? {
      code: 'stopped',
      message: `${file.name}: the server is stopping. Send it again when it runs.`,
    };
    return { name: file.name, status: 'refused', ...fault };
  } finally {
    rmSync(keptPath, { force: true });
  }
}

type Registered = { status: 'queued'; rideId: string } | { status: 'duplicate'; rideId: string; message: string };

/** Says where a ride that is sent again is already. */
export function alreadyHere(sql: Services['sql'], bikeId: string | null): string {
  const stored = bikeId === null ? undefined : findBike(sql, bikeId);
  return stored ? `It is already here, on ${stored.bike.name}.` : 'It is already here, and waits for its bike.';
}

/** Moves the kept file in and registers the ride. All in one turn of the event loop: no removal can come between. */
function register(
  { sql, raw }: Pick<Services, 'sql' | 'raw'>,
  name: string,
  keptPath: string,
  ride: IntakenRide,
  to: Destination,
): Registered {
  const known = findRideByContent(sql, ride.sha256, ride.keptSha256);
  if (known) return { status: 'duplicate', rideId: known.id, message: alreadyHere(sql, known.bikeId) };
  if (to.bikeId !== null && !findBike(sql, to.bikeId)) throw notFound('bike');
  raw.take(keptPath, ride.keptSha256);
  const rideId = newId();
  try {
    sql.transaction(() =>
      insertRide(sql, {
        id: rideId,
        bike_id: to.bikeId,
        upload_id: to.uploadId,
        file: name,
        sha256: ride.sha256,
        kept_sha256: ride.keptSha256,
        bytes: ride.bytes,
        kept_bytes: ride.keptBytes,
        format: ride.format,
        positions: ride.positions,
        start_ms: ride.startMs,
        duration_s: ride.durationS,
        recorded_teeth: JSON.stringify(ride.recordedTeeth),
        warnings: JSON.stringify(ride.warnings),
      }),
    );
  } catch (error) {
    raw.remove(ride.keptSha256);
    throw error;
  }
  return { status: 'queued', rideId };
}

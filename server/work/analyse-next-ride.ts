import { engineVersion } from '../engine.ts';
import { countsAfter } from '../judgements/counts-after.ts';
import { findBike } from '../store/bike-store.ts';
import { keepParts } from '../store/part-store.ts';
import type { RideFault } from '../store/work-store.ts';
import {
  beginAttempt,
  failRide,
  keepAnalysis,
  takeBackAttempt,
  type WaitingRide,
  type WorkedWith,
} from '../store/work-store.ts';
import { compareWithOthers } from './compare-with-others.ts';
import type { WorkBench } from './work-bench.ts';
import { fileMissing, workFault } from './work-fault.ts';
import { WorkFailed } from './worker-pool.ts';

/** A ride whose analysis was begun this often without an end is taken to be what stops the server. */
const MOST_ATTEMPTS = 10;

/** Analyses one ride and keeps what comes of it. Throws only where that cannot be kept. */
export async function analyseNextRide(bench: WorkBench, ride: WaitingRide): Promise<void> {
  const { sql, raw, pool, hub, log } = bench;
  const stored = findBike(sql, ride.bikeId);
  if (!stored) return;
  const worked: WorkedWith = { bikeId: ride.bikeId, drivetrainVersion: stored.drivetrainVersion, engineVersion };
  const start = performance.now();
  const tell = (status: 'analysing' | 'done' | 'failed'): void =>
    hub.tell({ type: 'ride', rideId: ride.id, bikeId: ride.bikeId, uploadId: ride.uploadId, status });
  const fail = (fault: RideFault): void => {
    const kept = sql.transaction(() => failRide(sql, ride.id, worked, fault));
    log.info(
      { job: 'analyse', rideId: ride.id, code: fault.code, ms: Math.round(performance.now() - start) },
      'job failed',
    );
    if (kept) tell('failed');
    else takeBackAttempt(sql, ride.id);
  };
  if (ride.attempts >= MOST_ATTEMPTS)
    return fail({ code: 'gave-up', message: `${ride.file}: its analysis never came to an end and was given up.` });
  if (!raw.has(ride.keptSha256)) return fail(fileMissing(ride.file));
  beginAttempt(sql, ride.id);
  tell('analysing');
  try {
    const answer = await pool.run('analyse', { path: raw.path(ride.keptSha256), file: ride.file, bike: stored.bike });
    for (const stage of answer.stages) log.debug({ job: 'analyse', rideId: ride.id, ...stage }, 'stage');
    if (answer.fault) return fail(answer.fault);
    const { analysis } = answer;
    const others = await compareWithOthers(bench, ride);
    const kept = sql.transaction(() => {
      if (!keepAnalysis(sql, ride.id, worked, analysis, countsAfter(sql, ride.id, analysis))) return false;
      if (others) keepParts(sql, ride.id, others);
      return true;
    });
    log.info({ job: 'analyse', rideId: ride.id, ms: Math.round(performance.now() - start) }, 'job done');
    if (kept) tell('done');
    else takeBackAttempt(sql, ride.id);
  } catch (error) {
    if (!(error instanceof WorkFailed)) throw error;
    const fault = workFault(ride.file, error);
    if (!fault) return takeBackAttempt(sql, ride.id);
    if (fault.code === 'broke-off')
      log.error({ job: 'analyse', rideId: ride.id, err: error.cause }, 'analysis broke off');
    fail(fault);
  }
}

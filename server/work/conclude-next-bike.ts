import { engineVersion } from '../engine.ts';
import { keepReport, keepReportFailure } from '../store/report-store.ts';
import type { BikeBacklog } from '../store/work-store.ts';
import type { WorkBench } from './work-bench.ts';
import { WorkFailed } from './worker-pool.ts';

/** Works out one bike's report and keeps it. Throws only where it cannot be kept. */
export async function concludeNextBike(bench: WorkBench, backlog: BikeBacklog): Promise<void> {
  const { sql, pool, database, log } = bench;
  const { bikeId } = backlog;
  const start = performance.now();
  try {
    const answer = await pool.run('conclude', { database, bikeId });
    if (!answer) return;
    for (const stage of answer.stages) log.debug({ job: 'conclude', bikeId, ...stage }, 'stage');
    sql.transaction(() => keepReport(sql, bikeId, engineVersion, answer));
    log.info({ job: 'conclude', bikeId, ms: Math.round(performance.now() - start) }, 'job done');
  } catch (error) {
    if (!(error instanceof WorkFailed)) throw error;
    if (error.code === 'stopped') return;
    log.error({ job: 'conclude', bikeId, code: error.code, err: error.cause }, 'job failed');
    sql.transaction(() => keepReportFailure(sql, backlog, engineVersion, error.code));
  }
}

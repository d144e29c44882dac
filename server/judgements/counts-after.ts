import { gunzipSync } from 'node:zlib';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { listJudgements } from '../store/judgement-store.ts';
import type { Sql } from '../store/sql.ts';
import { eventKeys } from './event-key.ts';
import { judgeRideReport } from './judge-ride-report.ts';
import { matchJudgements } from './match-judgements.ts';

/** Counts of a ride once its judgements are applied, JSON. `counts` are those before, `report` the gzipped report. */
export function countsAfter(
  sql: Sql,
  rideId: string,
  { counts, report }: { readonly counts: string; readonly report: Uint8Array },
): string {
  const judgements = listJudgements(sql, rideId);
  if (judgements.length === 0) return counts;
  const plain = JSON.parse(gunzipSync(report).toString()) as RideReport;
  return JSON.stringify(judgeRideReport(plain, matchJudgements(eventKeys(plain), judgements)).counts);
}

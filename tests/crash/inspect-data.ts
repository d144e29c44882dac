import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';

/** What a data folder holds, read without any code of the server. */
export interface InspectedData {
  readonly wrong: string[];
  readonly ride: Map<string, string>;
  readonly adjustment: Map<string, string>;
  readonly judgement: Map<string, string>;
  readonly bike: Map<string, string>;
  readonly rides: number;
  readonly statuses: Map<string, number>;
}

const checked = new Set<string>();

/**
 * Looks into the data folder of a server that is not running. A ride is `whole` where its kept file is there with the
 * content it is named by and, if the ride is done, its analysis too.
 */
export function inspectData(data: string): InspectedData {
  const database = new Database(join(data, 'cogwright.sqlite'));
  try {
    const wrong: string[] = [];
    const integrity = database.pragma('integrity_check', { simple: true });
    if (integrity !== 'ok') wrong.push(`the database's integrity: ${integrity}`);
    for (const row of database.pragma('foreign_key_check') as unknown[])
      wrong.push(`a broken reference: ${JSON.stringify(row)}`);
    const rows = database
      .prepare(
        `SELECT ride.*, ride_analysis.ride_id AS analysis, length(columns) AS columns
         FROM ride LEFT JOIN ride_analysis ON ride_analysis.ride_id = ride.id`,
      )
      .all() as Record<string, string>[];
    const ride = new Map<string, string>();
    const statuses = new Map<string, number>();
    for (const row of rows) {
      const path = join(data, 'raw', row.kept_sha256.slice(0, 2), row.kept_sha256);
      const fault = faultOf(row, path);
      if (fault) wrong.push(`ride ${row.file}: ${fault}`);
      ride.set(row.file, fault ?? 'whole');
      statuses.set(row.status, (statuses.get(row.status) ?? 0) + 1);
    }
    const pairs = (sql: string): Map<string, string> =>
      new Map(
        database
          .prepare(sql)
          .raw()
          .all()
          .map((row) => row as [string, string]),
      );
    return {
      wrong,
      ride,
      statuses,
      rides: rows.length,
      adjustment: pairs("SELECT note, bike_id || ' ' || CAST(amount AS INTEGER) FROM adjustment"),
      judgement: pairs(
        "SELECT ride.file || '/' || event_key, verdict FROM judgement JOIN ride ON ride.id = judgement.ride_id",
      ),
      bike: new Map(
        [...pairs('SELECT id, spec FROM bike')].map(([id, spec]) => [id, JSON.parse(spec).cassette.join('-')]),
      ),
    };
  } finally {
    database.close();
  }
}

function faultOf(row: Record<string, string>, path: string): string | null {
  if (!existsSync(path)) return 'its file is gone';
  if (row.status === 'done' && (row.analysis === null || !row.columns)) return 'it is done without an analysis';
  if (checked.has(path)) return null;
  if (createHash('sha256').update(readFileSync(path)).digest('hex') !== row.kept_sha256) return 'its file is not whole';
  checked.add(path);
  return null;
}

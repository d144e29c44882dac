import { z } from 'zod';
import type { Sql } from './sql.ts';

/** Kind of event and its moment in Unix milliseconds: `shift-1775000000000`. */
export const eventKeySchema = z.string().regex(/^(shift|ghost|drop|skip)--?\d{1,16}$/, 'must be an event key');

/** What the rider says of an event: it was so, or it was not. */
export const verdictSchema = z.enum(['confirmed', 'rejected']);

/** What a rider said of one event of a ride. */
export interface Judgement {
  readonly eventKey: string;
  readonly verdict: z.infer<typeof verdictSchema>;
  readonly note: string;
}

/** All judgements on a ride. */
export const listJudgements = (sql: Sql, rideId: string): Judgement[] =>
  sql
    .all(
      sql.build
        .selectFrom('judgement')
        .select(['event_key', 'verdict', 'note'])
        .where('ride_id', '=', rideId)
        .orderBy('event_key'),
    )
    .map((row) => ({ eventKey: row.event_key, verdict: row.verdict, note: row.note }));

/** Puts a judgement in the place of an earlier one of the same event. */
export function putJudgement(sql: Sql, rideId: string, judgement: Judgement): void {
  const value = { verdict: judgement.verdict, note: judgement.note, judged_at: Date.now() };
  sql.run(
    sql.build
      .insertInto('judgement')
      .values({ ride_id: rideId, event_key: judgement.eventKey, ...value })
      .onConflict((conflict) => conflict.columns(['ride_id', 'event_key']).doUpdateSet(value)),
  );
}

/** False where there was none. */
export const deleteJudgement = (sql: Sql, rideId: string, eventKey: string): boolean =>
  sql.run(sql.build.deleteFrom('judgement').where('ride_id', '=', rideId).where('event_key', '=', eventKey)) > 0;

import { z } from 'zod';
import { chainDropSchema } from '../../src/report/ride-report-schema.ts';
import type { Sql } from './sql.ts';
import type { JudgementTable } from './tables.ts';

type JudgementRow = Pick<JudgementTable, 'event_key' | 'verdict' | 'side' | 'note'>;

/** Kind of event and its moment in Unix milliseconds: `shift-1775000000000`. */
export const eventKeySchema = z.string().regex(/^(shift|ghost|drop|skip)--?\d{1,16}$/, 'must be an event key');

/** Key of an event that a rider can tell of where the log does not show it. */
export const toldKeySchema = eventKeySchema.regex(/^(drop|skip)-/, 'must be the key of a lost chain or a skip');

/** What the rider says of an event: it was so, or it was not. */
export const verdictSchema = z.enum(['confirmed', 'rejected']);

/** The same, or that there was one which the log does not show. */
export const saidSchema = z.enum([...verdictSchema.options, 'told']);

/** Where a lost chain went, as the rider told. */
export const toldSideSchema = chainDropSchema.shape.side;

/** What a rider said of one event of a ride. */
export interface Judgement {
  readonly eventKey: string;
  readonly verdict: z.infer<typeof saidSchema>;
  /** Absent but for a lost chain that the rider told of. */
  readonly side?: z.infer<typeof toldSideSchema> | undefined;
  readonly note: string;
}

/** All judgements on a ride. */
export const listJudgements = (sql: Sql, rideId: string): Judgement[] =>
  sql
    .all(
      sql.build
        .selectFrom('judgement')
        .select(['event_key', 'verdict', 'side', 'note'])
        .where('ride_id', '=', rideId)
        .orderBy('event_key'),
    )
    .map(asJudgement);

/** A judgement as its row holds it. */
export const asJudgement = ({ event_key, verdict, side, note }: JudgementRow): Judgement => ({
  eventKey: event_key,
  verdict,
  ...(side !== null && { side }),
  note,
});

/** Puts a judgement in the place of an earlier one of the same event. */
export function putJudgement(sql: Sql, rideId: string, judgement: Judgement): void {
  const { eventKey, verdict, side = null, note } = judgement;
  const value = { verdict, side, note, judged_at: Date.now() };
  sql.run(
    sql.build
      .insertInto('judgement')
      .values({ ride_id: rideId, event_key: eventKey, ...value })
      .onConflict((conflict) => conflict.columns(['ride_id', 'event_key']).doUpdateSet(value)),
  );
}

/** False where there was none. */
export const deleteJudgement = (sql: Sql, rideId: string, eventKey: string): boolean =>
  sql.run(sql.build.deleteFrom('judgement').where('ride_id', '=', rideId).where('event_key', '=', eventKey)) > 0;

import { type Bike, bikeSchema } from '../../src/drivetrain/bike.ts';
import { sameDrivetrain } from '../../src/drivetrain/same-drivetrain.ts';
import type { Warning } from '../../src/errors/warning.ts';
import { unknownBike, unknownNote } from '../../src/gear-trace/guess/unknown-drivetrain.ts';
import { namedBike } from './named-bike.ts';
import { newId } from './new-id.ts';
import type { Sql } from './sql.ts';
import type { BikeTable } from './tables.ts';

/** A bike as it is stored. */
export interface StoredBike {
  readonly id: string;
  readonly bike: Bike;
  readonly source: 'given' | 'guessed';
  /** An invented bike that came with the program. */
  readonly sample: boolean;
  /** What was said when it was guessed; empty for a bike that its rider wrote down. */
  readonly notes: readonly Warning[];
  /** How likely a guessed bike is right, 0 to 1; null for one that its rider wrote down, and where nobody worked it out. */
  readonly certainty: number | null;
  /** False where what is stored is no bike: one whose drivetrain is not known stands in for it. */
  readonly readable: boolean;
  readonly drivetrainVersion: number;
  readonly revision: number;
}

const fromRow = (row: BikeTable): StoredBike => ({
  id: row.id,
  source: row.source,
  sample: row.sample === 1,
  certainty: row.certainty,
  ...written(row),
  drivetrainVersion: row.drivetrain_version,
  revision: row.revision,
});

/**
 * The bike as it was written down. A row that is no bike must not take all others with it: it stands as one whose
 * drivetrain is not known, under its own name, and stays in the database as it is until someone describes the bike.
 */
function written({
  spec,
  notes,
}: Pick<BikeTable, 'spec' | 'notes'>): Pick<StoredBike, 'bike' | 'notes' | 'readable'> & { certainty?: null } {
  const found = namedBike(parsed(spec));
  const bike = bikeSchema.safeParse(found);
  if (bike.success) return { bike: bike.data, notes: JSON.parse(notes), readable: true };
  const name = bikeSchema.shape.name.safeParse((found as { name?: unknown } | null)?.name);
  return {
    bike: { ...unknownBike, ...(name.success && { name: name.data }) },
    notes: [unknownNote('What is stored of this bike cannot be read as one')],
    certainty: null,
    readable: false,
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** Returns its id, a new one unless one is named. */
export function insertBike(
  sql: Sql,
  bike: Bike,
  source: StoredBike['source'],
  {
    id = newId(),
    sample = false,
    notes = [],
    certainty = null,
  }: Partial<Pick<StoredBike, 'id' | 'sample' | 'notes' | 'certainty'>> = {},
): string {
  sql.run(
    sql.build.insertInto('bike').values({
      id,
      spec: JSON.stringify(bike),
      source,
      sample: sample ? 1 : 0,
      notes: JSON.stringify(notes),
      certainty,
      created_at: Date.now(),
      drivetrain_version: 1,
      revision: 1,
    }),
  );
  return id;
}

/** The bike with this id; undefined where there is none. */
export function findBike(sql: Sql, id: string): StoredBike | undefined {
  const row = sql.first(sql.build.selectFrom('bike').selectAll().where('id', '=', id));
  return row && fromRow(row);
}

/** Every bike, the oldest first. */
export const listBikes = (sql: Sql): StoredBike[] =>
  sql.all(sql.build.selectFrom('bike').selectAll().orderBy('created_at').orderBy('id')).map(fromRow);

/**
 * Puts another drivetrain or name in place. Only what the gear trace hangs on makes the rides be analysed again: a new
 * name does not.
 */
export function replaceBike(sql: Sql, stored: StoredBike, bike: Bike): void {
  const same = stored.readable && sameDrivetrain(stored.bike, bike);
  sql.run(
    sql.build
      .updateTable('bike')
      .set((expression) => ({
        spec: JSON.stringify(bike),
        source: 'given' as const,
        notes: '[]',
        certainty: null,
        revision: expression('revision', '+', 1),
        drivetrain_version: expression('drivetrain_version', '+', same ? 0 : 1),
      }))
      .where('id', '=', stored.id),
  );
}

/** Puts a better guess in place of a guess; a bike that its rider has written down meanwhile stays as it is. */
export function improveGuess(
  sql: Sql,
  id: string,
  { bike, notes, certainty }: Pick<StoredBike, 'bike' | 'notes' | 'certainty'>,
): void {
  const stored = findBike(sql, id);
  if (stored?.source !== 'guessed') return;
  sql.run(
    sql.build
      .updateTable('bike')
      .set((expression) => ({
        spec: JSON.stringify({ ...bike, name: stored.bike.name }),
        notes: JSON.stringify(notes),
        certainty,
        revision: expression('revision', '+', 1),
        drivetrain_version: expression('drivetrain_version', '+', 1),
      }))
      .where('id', '=', id),
  );
}

/** Says that something changed which the bike's report hangs on; returns the new revision. */
export function touchBike(sql: Sql, id: string): number {
  const row = sql.first(
    sql.build
      .updateTable('bike')
      .set((expression) => ({ revision: expression('revision', '+', 1) }))
      .where('id', '=', id)
      .returning('revision'),
  );
  return row?.revision ?? 0;
}

/** Removes the bike with its adjustments and its report. It must have no rides left. */
export const deleteBike = (sql: Sql, id: string): void =>
  void sql.run(sql.build.deleteFrom('bike').where('id', '=', id));

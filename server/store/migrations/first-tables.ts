import type { Kysely, Migration, SchemaModule } from 'kysely';
import { sql } from 'kysely';

/** Bikes, adjustments, rides and what was worked out from them. */
export const firstTables: Migration = {
  async up(database: Kysely<unknown>): Promise<void> {
    for (const make of [
      metaTable,
      bikeTable,
      adjustmentTable,
      uploadTable,
      rideTable,
      rideAnalysisTable,
      bikeReportTable,
    ])
      await make(database.schema);
    await sql`PRAGMA application_id = 1131374423`.execute(database);
  },
};

async function metaTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('meta')
    .addColumn('key', 'text', (column) => column.primaryKey())
    .addColumn('value', 'text', (column) => column.notNull())
    .execute();
}

async function bikeTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('bike')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('spec', 'text', (column) => column.notNull())
    .addColumn('source', 'text', (column) => column.notNull())
    .addColumn('sample', 'integer', (column) => column.notNull().defaultTo(0))
    .addColumn('created_at', 'integer', (column) => column.notNull())
    .addColumn('drivetrain_version', 'integer', (column) => column.notNull().defaultTo(1))
    .addColumn('revision', 'integer', (column) => column.notNull().defaultTo(1))
    .execute();
}

async function adjustmentTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('adjustment')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('bike_id', 'text', (column) => column.notNull().references('bike.id').onDelete('cascade'))
    .addColumn('at', 'text', (column) => column.notNull())
    .addColumn('at_ms', 'integer', (column) => column.notNull())
    .addColumn('parameter', 'text', (column) => column.notNull())
    .addColumn('amount', 'real')
    .addColumn('unit', 'text', (column) => column.notNull())
    .addColumn('note', 'text', (column) => column.notNull())
    .execute();
  await schema.createIndex('adjustment_of_bike').on('adjustment').columns(['bike_id', 'at_ms']).execute();
}

async function uploadTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('upload')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('created_at', 'integer', (column) => column.notNull())
    .addColumn('placement', 'text', (column) => column.notNull())
    .execute();
}

async function rideTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('ride')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('bike_id', 'text', (column) => column.references('bike.id'))
    .addColumn('upload_id', 'text', (column) => column.references('upload.id').onDelete('set null'))
    .addColumn('file', 'text', (column) => column.notNull())
    .addColumn('sha256', 'text', (column) => column.notNull().unique())
    .addColumn('kept_sha256', 'text', (column) => column.notNull().unique())
    .addColumn('bytes', 'integer', (column) => column.notNull())
    .addColumn('kept_bytes', 'integer', (column) => column.notNull())
    .addColumn('format', 'text', (column) => column.notNull())
    .addColumn('positions', 'text', (column) => column.notNull())
    .addColumn('start_ms', 'integer', (column) => column.notNull())
    .addColumn('duration_s', 'real', (column) => column.notNull())
    .addColumn('warnings', 'text', (column) => column.notNull())
    .addColumn('uploaded_at', 'integer', (column) => column.notNull())
    .addColumn('status', 'text', (column) => column.notNull())
    .addColumn('error_code', 'text')
    .addColumn('error_message', 'text')
    .addColumn('attempts', 'integer', (column) => column.notNull().defaultTo(0))
    .addColumn('engine_version', 'text')
    .addColumn('drivetrain_version', 'integer')
    .execute();
  await schema.createIndex('ride_of_bike').on('ride').columns(['bike_id', 'start_ms']).execute();
  await schema.createIndex('ride_by_status').on('ride').columns(['status', 'attempts', 'uploaded_at']).execute();
  await schema.createIndex('ride_of_upload').on('ride').column('upload_id').execute();
}

async function rideAnalysisTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('ride_analysis')
    .addColumn('ride_id', 'text', (column) => column.primaryKey().references('ride.id').onDelete('cascade'))
    .addColumn('engine_version', 'text', (column) => column.notNull())
    .addColumn('drivetrain_version', 'integer', (column) => column.notNull())
    .addColumn('counts', 'text', (column) => column.notNull())
    .addColumn('evidence', 'text', (column) => column.notNull())
    .addColumn('events', 'blob', (column) => column.notNull())
    .addColumn('report', 'blob', (column) => column.notNull())
    .addColumn('columns', 'blob', (column) => column.notNull())
    .execute();
}

async function bikeReportTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('bike_report')
    .addColumn('bike_id', 'text', (column) => column.primaryKey().references('bike.id').onDelete('cascade'))
    .addColumn('revision', 'integer', (column) => column.notNull())
    .addColumn('engine_version', 'text', (column) => column.notNull())
    .addColumn('summary', 'text', (column) => column.notNull())
    .addColumn('detail', 'text', (column) => column.notNull())
    .addColumn('report', 'text', (column) => column.notNull())
    .addColumn('failure', 'text')
    .execute();
}

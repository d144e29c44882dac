import type { Migration } from 'kysely';
import { bikeCertainty } from './bike-certainty.ts';
import { bikeNotes } from './bike-notes.ts';
import { firstTables } from './first-tables.ts';
import { judgements } from './judgements.ts';
import { recordedTeeth } from './recorded-teeth.ts';
import { rideParts } from './ride-parts.ts';
import { rideProgress } from './ride-progress.ts';
import { toldSides } from './told-sides.ts';
import { workshopMarks } from './workshop-marks.ts';

/**
 * Every change of the tables since the first, in order. A migration that people have run is never edited: a new one is
 * added behind it. The number of migrations run is the database's version (`PRAGMA user_version`).
 */
export const allMigrations: Readonly<Record<string, Migration>> = {
  '0001-first-tables': firstTables,
  '0002-judgements': judgements,
  '0003-recorded-teeth': recordedTeeth,
  '0004-bike-notes': bikeNotes,
  '0005-ride-progress': rideProgress,
  '0006-ride-parts': rideParts,
  '0007-bike-certainty': bikeCertainty,
  '0008-told-sides': toldSides,
  '0009-workshop-marks': workshopMarks,
};

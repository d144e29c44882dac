import { z } from 'zod';
import { bikeSchema } from '../../src/drivetrain/bike.ts';
import { idSchema } from '../store/new-id.ts';
import { rideSummaryShape, takenRideShape } from './ride-shapes.ts';

const count = z.number().int().min(0);

/** Answer to an upload, file by file. */
export const uploadAnswerShape = z.object({ uploadId: idSchema, files: z.array(takenRideShape) });

/** The event `progress` of an upload: one ride has come further. */
export const uploadProgressShape = z.object({
  file: z.string(),
  rideId: idSchema,
  bikeId: idSchema.nullable(),
  status: rideSummaryShape.shape.status,
  done: count.describe('Rides of this upload that are over, well or not'),
  total: count,
  message: z.string().optional().describe('Why the ride could not be analysed'),
});

/** What was read in a file, and what was not, in sentences. */
export const readFileShape = z.object({
  name: z.string(),
  understood: z.array(z.string()),
  notUnderstood: z.array(z.string()).describe('Why it could not be read, or what it lacks'),
  remarks: z.array(z.string()).describe('What was left out or joined when it was read: no failure'),
});

/** A drivetrain guessed from files, how sure that is, and what each file told. */
export const drivetrainGuessShape = z.object({
  bike: bikeSchema.nullable().describe('Null where the files were read, but none shows a drivetrain'),
  certainty: z.number().min(0).max(1),
  madeUpCogs: z
    .array(z.number().int())
    .readonly()
    .describe('Cogs of it, in teeth, that nothing shows: they were filled in to make a cassette'),
  ridesApart: z
    .boolean()
    .describe(
      'Whether they look like rides of several bikes: the drivetrain guessed from all of them was never ridden',
    ),
  notes: z.array(z.string()),
  withCadence: z
    .boolean()
    .describe(
      'Whether any of the rides holds a cadence: without one no ride shows its cogs, and the guess rests on gear records alone',
    ),
  files: z.array(readFileShape),
});

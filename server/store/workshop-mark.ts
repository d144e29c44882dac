import { z } from 'zod';
import { isStillToCome } from '../../src/ride-log/still-to-come.ts';

/** So much is read on a row of the list. */
const LONGEST_NOTE = 200;

/** That a bike is set aside for the workshop. What is stored stays readable whatever the day is. */
export const workshopMarkSchema = z.strictObject({
  on: z.iso
    .date('must be a day of the calendar, for example 2026-05-03')
    .nullable()
    .default(null)
    .describe('The day on which it was set aside; null: not told'),
  note: z.string().trim().max(LONGEST_NOTE).default('').describe('Why, or what to do'),
});

/** The same as it is sent: on no day that is still to come. */
export const newWorkshopMarkSchema = workshopMarkSchema.refine(
  ({ on }) => on === null || !isStillToCome(Date.parse(on), Date.now()),
  { path: ['on'], error: 'must not be a day still to come' },
);

/** A checked mark. */
export type WorkshopMark = z.infer<typeof workshopMarkSchema>;

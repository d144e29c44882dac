import { z } from 'zod';
import { causes } from '../diagnosis/causes.ts';
import { cogSkipsSchema } from './cog-skips-schema.ts';
import {
  cassetteEnd,
  count,
  direction,
  endCogCount,
  probability,
  tally,
  time,
  toothCount,
  troubleSince,
} from './schema-parts.ts';

const skipCount = z.object({ skips: count, hours: z.number().min(0) });
const periodSchema = z.object(tally);

/** The shifts of one direction, or onto the larger or smaller half of the cogs, on those cogs that failed before or after an adjustment. */
const partSchema = z.object({
  part: z.enum(['to-larger', 'to-smaller', 'larger-cogs', 'smaller-cogs']),
  teeth: z.array(toothCount),
  before: troubleSince,
  after: troubleSince,
  /** Each cog compared with itself alone. */
  probabilityBetter: probability,
});

/** What before and after by all shifts hide; at most one is set, and none for a limit screw. Absent in reports that an older engine left in a store. */
const hiddenByAll = {
  /** It took the trouble away for a while: from the ride of `at` on it was back. */
  cameBack: z.object({ at: time, until: troubleSince, since: troubleSince }).nullable().optional(),
  /** Trouble grew ride by ride before it and went on growing: `probabilityBetter` is then set against where the growth led. */
  wentOnGrowing: z
    .object({ firstBefore: troubleSince, lastBefore: troubleSince, firstAfter: troubleSince, lastAfter: troubleSince })
    .nullable()
    .optional(),
  /** One direction or half of the cassette got better and the other worse. */
  oppositeWays: z
    .object({
      better: partSchema,
      worse: partSchema,
      /** Both fail at one setting, towards opposite ends of the cassette: no setting between cures both. */
      noneCuresBoth: z.boolean().optional(),
    })
    .nullable()
    .optional(),
};

/** The end cog of a limit screw, by which alone it is judged. */
const endCogSchema = z.object({
  teeth: toothCount,
  end: cassetteEnd,
  before: endCogCount,
  after: endCogCount,
});

/** An adjustment, with the riding from the one before to it against that from it to the next. */
export const adjustmentReportSchema = z.object({
  at: z.string(),
  parameter: z.string(),
  amount: z.number().nullable(),
  unit: z.string(),
  before: periodSchema,
  after: periodSchema,
  /** The same for shifts onto each cog in each direction where anything was seen. */
  cogs: z.array(
    z.object({
      teeth: toothCount,
      direction,
      before: periodSchema,
      after: periodSchema,
      probabilityBetter: probability,
    }),
  ),
  /** For a limit screw, its end cog: `probabilityBetter` and `shiftsStillNeeded` are then of the shifts onto that cog alone. Else null. */
  endCog: endCogSchema.nullable().optional(),
  /**
   * For a chain or cassette, skips under load: on the parts before it and, until the next of them was replaced, on those since. `hoursStillNeeded` of
   * pedalling until it is decided: 0 where it is, null where nothing was pedalled before or 50 would not do. Else null.
   */
  skipping: z
    .object({
      before: skipCount,
      after: skipCount,
      /** The same by cog, a row for each, smallest first. Absent in reports that an older engine left in a store. */
      cogs: z.object({ before: z.array(cogSkipsSchema), after: z.array(cogSkipsSchema) }).optional(),
      probabilityFewer: probability,
      hoursStillNeeded: count.nullable(),
    })
    .nullable(),
  probabilityBetter: probability,
  shiftsStillNeeded: count.nullable(),
  ...hiddenByAll,
  /**
   * Where it is the last of several turns the same way, with no other work between, and does not tell by itself: the riding before the first of them, made at
   * `fromAt`, against that after the last. Null elsewhere. Absent in reports that an older engine left in a store.
   */
  together: z
    .object({
      fromAt: z.string(),
      before: periodSchema,
      after: periodSchema,
      endCog: endCogSchema.nullable(),
      probabilityBetter: probability,
      shiftsStillNeeded: count.nullable(),
    })
    .nullable()
    .optional(),
  /** What was done next, which ended the riding on it: no more shifts can tell. Null where nothing was; absent as above. */
  followedBy: z.object({ at: z.string(), parameter: z.string(), amount: z.number().nullable() }).nullable().optional(),
  /** The fault that is there and that it turned further the way in which it is out; null where none. Absent in reports that an older engine left in a store. */
  wrongWayFor: z.enum(causes).nullable().optional(),
  /** The fault that is there and that it went towards, though it helped: its part, amount or sign may be wrong. Null where none; absent as above. */
  helpedAgainst: z.enum(causes).nullable().optional(),
  /** How many groups of adjustments lie before its own: the same for those made with no judged shift between. */
  group: count,
  /** True where another adjustment was made with no judged shift between: what follows cannot be shared out. */
  sharedPeriod: z.boolean(),
  /** True where it was taken back, or took one back, with no ride between: there is nothing to judge. Absent in reports that an older engine left in a store. */
  cancelledOut: z.boolean().optional(),
  /** Judged shifts of the rides before and after that are not compared, since a fault began suddenly between them and the rest. */
  leftOut: z.object({ before: count, after: count }),
});

/** The riding before or after an adjustment. */
export type PeriodReport = z.infer<typeof periodSchema>;
/** One adjustment of a report. */
export type AdjustmentReport = z.infer<typeof adjustmentReportSchema>;

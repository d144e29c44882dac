import { z } from 'zod';
import { bikeSchema } from '../drivetrain/bike.ts';
import { adjustmentReportSchema } from './adjustment-report-schema.ts';
import { cogSkipsSchema } from './cog-skips-schema.ts';
import { diagnosisSchema } from './diagnosis-report-schema.ts';
import { bikeRideSchema } from './ride-report-schema.ts';
import { count, direction, probability, tally, toothCount, warning } from './schema-parts.ts';

/** Shifts onto one cog in one direction, over all rides. */
export const cogReportSchema = z.object({
  teeth: toothCount,
  direction,
  ...tally,
  /** Chains lost past an end cog, beside the shifts; absent in reports that an older engine left in a store. */
  chainDrops: count.optional(),
  /** How many of those are sure; absent in reports that an older engine left in a store. */
  sureChainDrops: count.optional(),
});

/** A part or setting that was looked at and found right. */
const lookReportSchema = z.object({ at: z.string(), parameter: z.string(), unit: z.string() });

/** The report of the contract. Objects are open: more fields may be added beside these. */
export const reportSchema = z.object({
  version: z.literal(1),
  bike: bikeSchema,
  bikeSource: z.enum(['given', 'guessed']),
  /** How a guessed bike was found and how sure that is; where a given one disagrees with the rides. */
  bikeNotes: z.array(warning),
  /** How likely a guessed bike is right, held below 1 for cogs that may not have been used; null for a given one, and where nobody worked it out. */
  bikeCertainty: probability.nullable(),
  /** Cogs of a guessed bike that no ride shows, as those filled in to make a cassette; empty for a given one. */
  bikeUnseenCogs: z.array(toothCount),
  rides: z.array(bikeRideSchema),
  failed: z.array(z.object({ file: z.string(), code: z.string(), message: z.string() })),
  cogs: z.array(cogReportSchema),
  /** A row for each cog, smallest first. Absent in reports that an older engine left in a store. */
  skipsByCog: z.array(cogSkipsSchema).optional(),
  diagnosis: diagnosisSchema,
  adjustments: z.array(adjustmentReportSchema),
  /** What was looked at or measured and found right, in order of time: nothing was turned, so nothing is compared. Absent in reports that an older engine left in a store. */
  looks: z.array(lookReportSchema).optional(),
});

/** A ride of a bike's report in short: without the lists of what was seen in it, which `counts` sum up. */
const rideInShortSchema = bikeRideSchema.omit({
  shifts: true,
  ghostShifts: true,
  chainDrops: true,
  skips: true,
  gears: true,
});

/** A report whose rides are in short: it does not grow with what was seen in them. */
export const reportInShortSchema = reportSchema.extend({ rides: z.array(rideInShortSchema) });

/** A report, checked. */
export type Report = z.infer<typeof reportSchema>;
/** A report whose rides are in short; every report is one. */
export type ReportInShort = z.infer<typeof reportInShortSchema>;
/** One look of a report. */
export type LookReport = z.infer<typeof lookReportSchema>;
/** One cog and direction of a report. */
export type CogReport = z.infer<typeof cogReportSchema>;
/** Skips on one cog of a report. */
export type CogSkips = z.infer<typeof cogSkipsSchema>;
/** A file that could not be used, and why. */
export type FailedRide = Report['failed'][number];

import { z } from 'zod';
import { type DropSign, dropSignUnits } from '../shifts/drops/drop-candidate.ts';
import { heldBackCodes } from './held/held-back-codes.ts';
import { count, direction, probability, time, toothCount, warning } from './schema-parts.ts';

/** A commanded shift as judged. `crankRevs`: null where it never completed or was not judged. */
export const shiftSchema = z.object({
  at: time,
  fromTeeth: toothCount,
  toTeeth: toothCount,
  direction,
  outcome: z.enum(['clean', 'late', 'missed', 'overshot', 'unjudged']),
  /** Null for a judged shift. */
  unjudgedBecause: z
    .enum(['no-pedalling', 'no-cadence', 'no-drive-seen', 'not-seen', 'astray', 'two-cogs-one-count', 'rejected'])
    .nullable(),
  crankRevs: z.number().min(0).nullable(),
  /** Seconds from `at` until the cranks had made the turns that part clean from late and late from missed, and until it was done, see `shiftTurns`. */
  turns: z.object({
    /** Absent in a report that an earlier engine made. */
    fromS: z.number().nullable().optional(),
    cleanUntilS: z.number().nullable(),
    lateUntilS: z.number().nullable(),
    doneS: z.number().nullable(),
  }),
  confidence: probability,
  /** How likely each way it can have gone is; `confidence` is that of `outcome`. Null where it was not judged; absent in reports that an older engine left in a store. */
  outcomeChances: z
    .object({ clean: probability, late: probability, missed: probability, overshot: probability })
    .nullable()
    .optional(),
  /** True where only the rider's reaction speaks for the outcome (no cadence, or a speed that shows no gears). */
  weak: z.boolean(),
  /** Mean crank torque over the shift; null without power or cadence. */
  torqueNm: z.number().nullable(),
});

/** A change of cog with no command in the 5 s before. */
export const ghostShiftSchema = z.object({
  at: time,
  fromTeeth: toothCount,
  toTeeth: toothCount,
  heldS: z.number().min(0),
  /** True where the chain went at last towards a cog that it had missed; absent in reports that were kept before it was told. */
  towardsCommand: z.boolean().optional(),
  confidence: probability,
});

/** One sign of a lost chain. Its `value` is null where there is nothing to measure, and where a halt lasted to the ride's end or legs turned a standing wheel. */
const dropSignSchema = z.object({
  sign: z.enum(Object.keys(dropSignUnits) as DropSign[]),
  value: z.number().nullable(),
  unit: z.enum(['%', 's', 'W', 'records', 'shifts', 'odds', 'm/s', 'm/s²']).nullable(),
  /** What it adds to the log odds that the chain came off; 0 for what is told alone. They add up to those of `confidence` as the engine found it. */
  logOdds: z.number(),
});

/** True where the rider told of an event that the log does not show, or of its side; else absent. */
const toldByRider = z.literal(true).optional();

/** A lost chain. `afterShiftTo`: the cog of a shift just before, null where there was none or the log has no gear records to tell. */
export const chainDropSchema = z.object({
  at: time,
  side: z.enum(['past-largest', 'past-smallest', 'chainring', 'unknown']),
  afterShiftTo: toothCount.nullable(),
  confidence: probability,
  /** What was seen of it; absent in reports that an older engine left in a store. */
  signs: z.array(dropSignSchema).optional(),
  toldByRider,
});

/** A chain that slipped over teeth of a cog. */
export const skipSchema = z.object({
  at: time,
  teeth: toothCount,
  confidence: probability,
  /** How far the legs leapt ahead of the wheel; absent in reports that an older engine left in a store. */
  leapPercent: z.number().optional(),
  toldByRider,
});

/** One ride with all that was seen in it. */
export const rideReportSchema = z.object({
  file: z.string(),
  format: z.enum(['fit', 'tcx', 'gpx', 'csv']),
  /** A moment of 1970 where the log has no clock. */
  start: time,
  durationS: z.number().min(0),
  pedallingS: z.number().min(0),
  gearSource: z.enum(['recorded', 'inferred', 'none']),
  evidence: z.enum(['full', 'commands-only', 'ratio-only', 'none']),
  rolloutMm: z.number().nullable(),
  sensorLagS: z
    .number()
    .nullable()
    .describe(
      'How much later speed over cadence shows a shift than the gear records name it, s; null where it is not known',
    ),
  measured: z.object({ chainrings: z.array(toothCount.nullable()), cassette: z.array(toothCount.nullable()) }),
  /** How the gears fit the teeth if the chain stood so many cogs from the one asked for all ride long: with which rollout, and how far off, as a share. Absent or empty where that is not known. */
  cogsOff: z
    .array(
      z.object({
        cogs: z.union([z.literal(-1), z.literal(0), z.literal(1)]),
        rolloutMm: z.number(),
        misfit: z.number(),
      }),
    )
    .optional(),
  counts: z.object({
    shifts: count,
    clean: count,
    late: count,
    missed: count,
    overshot: count,
    unjudged: count,
    ghostShifts: count,
    chainDrops: count,
    skips: count,
  }),
  shifts: z.array(shiftSchema),
  ghostShifts: z.array(ghostShiftSchema),
  chainDrops: z.array(chainDropSchema),
  skips: z.array(skipSchema),
  /** The chain's own cog from `at` on; null: not known. */
  gears: z.array(z.object({ at: time, teeth: toothCount.nullable() })),
  warnings: z.array(warning),
});

/** A ride as the report of its bike lists it. */
export const bikeRideSchema = rideReportSchema.extend({
  /** Why it does not count for the bike: what is said of the bike rests on the other rides alone. Null: it counts. */
  leftOut: z.enum(['another-bike']).nullable(),
  /** Why its shifts, ghost shifts and skips are in no tally and not weighed though it counts. Null: they are, or the ride is left out. */
  notTallied: z.enum(heldBackCodes).nullable(),
});

/** One sign of a lost chain. */
export type DropSignReport = z.infer<typeof dropSignSchema>;
/** One ride by itself. */
export type RideReport = z.infer<typeof rideReportSchema>;
/** One ride of a bike's report. */
export type BikeRide = z.infer<typeof bikeRideSchema>;

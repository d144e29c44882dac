import { z } from 'zod';
import {
  chainDropSchema,
  ghostShiftSchema,
  rideReportSchema,
  shiftSchema,
  skipSchema,
} from '../../src/report/ride-report-schema.ts';
import { eventKeySchema, saidSchema, toldSideSchema } from '../store/judgement-store.ts';
import { idSchema } from '../store/new-id.ts';

const time = z.iso.datetime();
const count = z.number().int().min(0);

/** A ride as lists show it. */
export const rideSummaryShape = z.object({
  id: idSchema,
  bikeId: idSchema.nullable(),
  file: z.string(),
  sha256: z.string().describe('Of the file as it was sent'),
  bytes: count,
  start: time.nullable().describe('Null where the log has no clock'),
  durationS: z.number().min(0),
  counts: rideReportSchema.shape.counts.nullable().describe('After judgements; null until the ride is analysed'),
  evidence: rideReportSchema.shape.evidence.nullable(),
  status: z.enum(['queued', 'analysing', 'done', 'failed']),
  error: z.object({ code: z.string(), message: z.string() }).optional(),
  warnings: rideReportSchema.shape.warnings,
  positions: z.enum(['none', 'dropped', 'kept']),
});

const judged = {
  eventKey: eventKeySchema,
  verdict: saidSchema
    .nullable()
    .describe(
      'What the rider said of it, `told` of one that the rider told of; the rest of the event is as it counts since',
    ),
};
const foundShiftShape = shiftSchema.pick({ outcome: true, unjudgedBecause: true, crankRevs: true, confidence: true });
const found = <Shape extends z.ZodType>(shape: Shape) =>
  shape
    .nullable()
    .describe('What the engine had found; null where the rider said nothing, or told of what the log does not show');

const judgedShift = shiftSchema.extend({ ...judged, found: found(foundShiftShape) });
const foundOther = { ...judged, found: found(shiftSchema.pick({ confidence: true })) };
const judgedGhostShift = ghostShiftSchema.extend(foundOther);
const judgedChainDrop = chainDropSchema.extend({
  ...judged,
  found: found(chainDropSchema.pick({ side: true, confidence: true })),
});
const judgedSkip = skipSchema.extend(foundOther);

/** A ride's report as the rider's judgements leave it, each event with its key. What was rejected altogether stands apart, so that it can be taken back. */
export const judgedRideReportShape = rideReportSchema.extend({
  shifts: z.array(judgedShift),
  ghostShifts: z.array(judgedGhostShift),
  chainDrops: z.array(judgedChainDrop),
  skips: z.array(judgedSkip),
  rejected: z
    .object({
      ghostShifts: z.array(judgedGhostShift),
      chainDrops: z.array(judgedChainDrop),
      skips: z.array(judgedSkip),
    })
    .describe(
      'What did not happen, as the rider said: in none of the lists and counts. A chain that went at last to the cog of a missed shift falls with that shift, its verdict null',
    ),
});

/** What a rider says of one event. */
export const judgementShape = z.object({
  eventKey: eventKeySchema,
  verdict: saidSchema,
  side: toldSideSchema.optional().describe('Where a lost chain went that the rider told of; else absent'),
  note: z.string(),
});

/** A ride with its report and the judgements on it. */
export const rideDetailShape = rideSummaryShape.extend({
  report: judgedRideReportShape
    .nullable()
    .describe('Lists and counts as the judgements leave them; null until the ride is analysed'),
  judgements: z.array(judgementShape),
});

const values = z.array(z.number().nullable());

/** A ride's columns for the timeline, one entry a record, null for missing. Times in seconds since `startMs`. */
export const rideColumnsShape = z.object({
  startMs: z.number(),
  chainrings: z.array(z.number()),
  cassette: z.array(z.number()),
  timeS: z.array(z.number()),
  speedMps: values,
  cadenceRpm: values,
  powerW: values,
  commandedTeeth: values,
  actualTeeth: values.describe('The cog the chain was on; null where it is not known, and while drive was lost'),
  ring: values,
  driving: z.array(z.number()),
  cogProbability: z.array(z.number()),
  lostDrive: z
    .array(z.object({ fromS: z.number(), toS: z.number() }))
    .describe('From each lost chain until the chain drove again, or to the end of the ride'),
});

/** What became of one file of an upload. */
export const takenRideShape = z.object({
  name: z.string(),
  status: z.enum(['queued', 'duplicate', 'refused']),
  rideId: idSchema.optional(),
  code: z.string().optional(),
  message: z.string().optional().describe('Why it was refused, or on which bike the ride is already'),
});

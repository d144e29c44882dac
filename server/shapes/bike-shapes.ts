import { z } from 'zod';
import { adjustmentSchema } from '../../src/adjustments/adjustment.ts';
import { causes } from '../../src/diagnosis/causes.ts';
import { cautionKinds } from '../../src/diagnosis/next-step/caution.ts';
import { bikeSchema } from '../../src/drivetrain/bike.ts';
import { adjustmentReportSchema } from '../../src/report/adjustment-report-schema.ts';
import { cogSkipsSchema } from '../../src/report/cog-skips-schema.ts';
import { diagnosisSchema } from '../../src/report/diagnosis-report-schema.ts';
import { cogReportSchema, reportInShortSchema, reportSchema } from '../../src/report/report-schema.ts';
import { rideReportSchema } from '../../src/report/ride-report-schema.ts';
import { stateOrder } from '../../src/report/state/state-word.ts';
import { troubleSince } from '../../src/report/state/trouble-now.ts';
import { idSchema } from '../store/new-id.ts';
import { workshopMarkSchema } from '../store/workshop-mark.ts';

const time = z.iso.datetime();
const share = z.number().min(0).max(1);
const count = z.number().int().min(0);

const pending = count.describe('Things still to be worked out before the report is up to date');
const staleReason = z
  .string()
  .nullable()
  .describe('Why what is shown is not up to date, as a sentence; null where it is');

const version = z.string().describe('Another one as soon as anything in it was changed');

/** A bike's state in a word, and why: see `BikeState`. */
export const stateShape = z.object({
  word: z.enum(stateOrder),
  underWay: z
    .boolean()
    .describe('True while its first rides are being worked through: the word then says nothing of the bike'),
  topCause: z
    .enum(causes)
    .nullable()
    .describe(
      'The likeliest cause now, no-fault where no single fault is likelier; null while there is too little data, and where no cause explains what goes wrong',
    ),
  probability: share.nullable().describe('Probability of that cause'),
  faultProbability: share
    .nullable()
    .describe('Probability that something is wrong now, whatever it is; null where no ride could be weighed'),
  reasons: z.array(z.string()),
  dangers: z.array(z.string()).describe('Those of the reasons that speak of danger: to be said whatever the word is'),
  cautionsSaid: z
    .array(z.enum(cautionKinds))
    .describe('Kinds of caution of the next step that the dangers say already, in words of their own'),
  since: z
    .enum(troubleSince)
    .describe(
      'From when on shifts count for the rate: the later of last adjustment and sudden onset, where enough were judged since',
    ),
  sinceAt: time.nullable().describe('That moment; null for first-ride'),
  sinceAdjustment: z.boolean().describe('Whether that is the last adjustment'),
  judgedShifts: count,
  judgedRides: count.describe('Rides in which they were made'),
  troubleRate: share.nullable(),
  low: share,
  high: share,
  skips: count.describe('How often the chain skipped from that moment on, whatever shifts do'),
  chainsLost: count.describe(
    'How often the chain surely came off since the last adjustment and is not looked over since, whatever shifts do',
  ),
  worstCog: cogReportSchema
    .pick({ teeth: true, direction: true, shifts: true, low: true, high: true })
    .extend({ troubleRate: share })
    .nullable()
    .describe(
      'The cog and direction whose shifts go wrong clearly more often than those of the whole bike; null where none stands out',
    ),
});

const workshopMark = workshopMarkSchema
  .nullable()
  .describe('That the bike was set aside for the workshop by hand, whatever its rides say; null where it was not');

/** A bike as the list of bikes shows it. */
export const bikeSummaryShape = z.object({
  id: idSchema,
  bike: bikeSchema,
  version,
  bikeSource: z.enum(['given', 'guessed']),
  sample: z.boolean().describe('An invented bike that came with the program'),
  workshopMark,
  rides: count,
  lastRideAt: time.nullable(),
  adjustments: count,
  state: stateShape,
  trend: z.array(
    z.object({ rideId: idSchema, at: time, troubleRate: share.nullable(), low: share, high: share, shifts: count }),
  ),
  work: z
    .string()
    .nullable()
    .describe('The first step of what to do; null where nothing has to be done, or nobody knows yet'),
  workPart: z
    .string()
    .nullable()
    .describe('The part that the work is about, by the name under which it is logged; null where it is about none'),
  adjustmentMarks: z.array(z.object({ at: z.string(), parameter: z.string() })),
  pending,
  staleReason,
});

/** An adjustment as it was logged, with its id. */
export const adjustmentLogShape = z.intersection(z.object({ id: idSchema }), adjustmentSchema);

/** The same with the version that a correction of it names. */
export const versionedAdjustmentShape = z.intersection(z.object({ version }), adjustmentLogShape);

const cogsSince = z
  .array(cogReportSchema)
  .nullable()
  .describe('The same as cogs of the report from sinceAt of the state on; null where all rides count');

const skipsByCogSince = z
  .array(cogSkipsSchema)
  .nullable()
  .describe('The same as skipsByCog of the report from sinceAt of the state on; null where all rides count');

/** A bike with its report and all that its page shows. */
export const bikeDetailShape = bikeSummaryShape.extend({
  report: reportSchema.nullable().describe('As the command line writes it; null until it is worked out'),
  adjustmentsLog: z.array(versionedAdjustmentShape),
  loadSplitNm: z
    .number()
    .nullable()
    .describe('Crank torque that parts soft from firm: the median of the bike’s own shifts'),
  perLoad: z.array(z.object({ load: z.enum(['soft', 'firm', 'unknown']), cogs: z.array(cogReportSchema) })),
  perPeriod: z.array(z.object({ from: time.nullable(), to: time.nullable(), cogs: z.array(cogReportSchema) })),
  cogsSince: cogsSince.optional(),
  skipsByCogSince: skipsByCogSince.optional(),
  engineVersion: z.string().nullable().describe('The engine that worked the report out'),
});

/** The same without the lists of what was seen in each ride: what the page reads. */
export const bikeInShortShape = bikeDetailShape.extend({
  report: reportInShortSchema
    .nullable()
    .describe('Its rides without shifts, ghostShifts, chainDrops, skips and gears; null until it is worked out'),
});

/** What a service sheet holds. */
export const sheetShape = z.object({
  bike: bikeSchema,
  bikeSource: z.enum(['given', 'guessed']),
  generatedAt: time,
  state: stateShape,
  workshopMark,
  rides: count,
  firstRideAt: time.nullable(),
  lastRideAt: time.nullable(),
  ridesAt: z.array(time).describe('When its rides began, oldest first; those without a date are left out'),
  totals: rideReportSchema.shape.counts,
  causes: diagnosisSchema.shape.causes,
  causesTitle: z.string().describe('What the causes are of: what is wrong now, or what was wrong at first'),
  verdict: z.string().nullable().describe('What was wrong and what is wrong by now, where the two differ; else null'),
  weighed: diagnosisSchema.shape.weighed.nullable(),
  lateralOffsetMm: diagnosisSchema.shape.lateralOffsetMm.nullable(),
  suggestion: diagnosisSchema.shape.suggestion.nullable(),
  cogs: z.array(cogReportSchema),
  cogsSince,
  skipsByCog: z.array(cogSkipsSchema).describe('Skips by cog over all rides; empty until they are worked out'),
  skipsByCogSince,
  lastAdjustments: z.array(adjustmentReportSchema),
  lastLooks: reportSchema.shape.looks.unwrap().describe('What was looked at and found right, newest first'),
  adjustmentsLog: z.array(adjustmentLogShape),
  warnings: z.array(z.string()),
  pending,
  staleReason,
  engineVersion: z.string().nullable(),
});

/** Answer to a change that makes the report out of date: the job that brings it up to date. */
export const jobShape = z.object({ jobId: z.string() });

/** What an adjustments file brought. */
export const takenAdjustmentsShape = jobShape.extend({
  added: count,
  known: count.describe('In the log already, or twice in the file'),
});

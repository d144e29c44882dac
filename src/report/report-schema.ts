import { z } from 'zod';
import { causes } from '../diagnosis/causes.ts';
import { settingsNow } from '../diagnosis/now/setting-now.ts';
import { bikeSchema } from '../drivetrain/bike.ts';
import { type DropSign, dropSignUnits } from '../shifts/drops/drop-candidate.ts';
import { heldBackCodes } from './held/held-back-codes.ts';

const probability = z.number().min(0).max(1);
const time = z.iso.datetime();
const toothCount = z.number().int();
const direction = z.enum(['to-larger', 'to-smaller']);
const count = z.number().int().min(0);
const warning = z.object({ code: z.string(), message: z.string() });

/** A commanded shift as judged. `crankRevs`: null where it never completed or was not judged. */
export const shiftSchema = z.object({
  at: time,
  fromTeeth: toothCount,
  toTeeth: toothCount,
  direction,
  outcome: z.enum(['clean', 'late', 'missed', 'overshot', 'unjudged']),
  /** Null for a judged shift. */
  unjudgedBecause: z.enum(['no-pedalling', 'no-cadence', 'no-drive-seen', 'not-seen', 'astray', 'rejected']).nullable(),
  crankRevs: z.number().min(0).nullable(),
  /** Seconds from `at` until the cranks had made the turns that part clean from late and late from missed, and until it was done, see `shiftTurns`. */
  turns: z.object({
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

/** A lost chain. `afterShiftTo`: the cog of a shift just before, null where there was none or the log has no gear records to tell. */
export const chainDropSchema = z.object({
  at: time,
  side: z.enum(['past-largest', 'past-smallest', 'chainring', 'unknown']),
  afterShiftTo: toothCount.nullable(),
  confidence: probability,
  /** What was seen of it; absent in reports that an older engine left in a store. */
  signs: z.array(dropSignSchema).optional(),
});

/** A chain that slipped over teeth of a cog. */
export const skipSchema = z.object({
  at: time,
  teeth: toothCount,
  confidence: probability,
  /** How far the legs leapt ahead of the wheel; absent in reports that an older engine left in a store. */
  leapPercent: z.number().optional(),
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
  sensorLagS: z.number().nullable(),
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
});

/** Judged shifts by what became of them, and the rate of trouble with its 95 % interval; null where there is no judged shift to rate. */
const tally = {
  shifts: count,
  late: count,
  missed: count,
  overshot: count,
  ghostShifts: count,
  troubleRate: probability.nullable(),
  low: probability,
  high: probability,
};

/** Shifts onto one cog in one direction, over all rides. */
export const cogReportSchema = z.object({
  teeth: toothCount,
  direction,
  ...tally,
  /** Chains lost past an end cog, beside the shifts; absent in reports that an older engine left in a store. */
  chainDrops: count.optional(),
});

/** The next step, with the cautions that go with it. */
const suggestionSchema = z.object({
  /** False where the evidence names no cause. One that is named may have nothing to turn: `parameter` is then `none`. */
  namesCause: z.boolean(),
  /** True where a chain came off: the cautions say what to look over before riding on, whatever is turned. */
  inspectFirst: z.boolean(),
  parameter: z.string(),
  /** What to do, in order; absent in reports that an older engine left in a store. */
  steps: z.array(z.string()).optional(),
  /** The same in one. */
  action: z.string(),
  start: z.string(),
  verify: z.string(),
  cautions: z.array(z.string()),
  /** Which way it is turned, with the sign of the table of adjustments; null where nothing is to be turned, or either way may be right. */
  sense: z
    .union([z.literal(1), z.literal(-1)])
    .nullable()
    .optional(),
});

const estimate = { mean: z.number(), low: z.number(), high: z.number() };
const twoCauses = z.tuple([z.enum(causes), z.enum(causes)]);

const troubleSince = z.object({ shifts: count, trouble: count });

const cassetteEnd = z.enum(['past-largest', 'past-smallest']);

/** Shifts onto an end cog: commanded, those that tell whether the chain stays on, late, missed or overshot ones, and chains lost past it. */
const endCogCount = z.object({ asked: count, shifts: count, trouble: count, lost: count });

/** What is wrong with the bike as it is now; the causes say what was mis-set. */
const nowSchema = z.object({
  /** The likeliest cause as long as it is there, the fault that an adjustment made of it, or `no-fault` once it is cured. */
  fault: z.enum(causes),
  /** `overdone`: an adjustment went past the mark; `unsettled`: the rides since do not tell; `untested`: there are none. */
  setting: z.enum(settingsNow),
  /** Where overdone: the last adjustment did it; else an earlier one that is not yet taken back far enough. */
  byLastAdjustment: z.boolean(),
  /** Probability that the setting stands past the mark. */
  pastTheMark: probability,
  /** Ends past which a chain was lost while nothing since shows that it stays on: keep off the cog there. */
  keepOff: z.array(cassetteEnd).optional(),
  /** Shifts onto the end cog whose limit is the cause, before that limit was last seen to and since; else null. */
  trial: z.object({ end: cassetteEnd, before: endCogCount, since: endCogCount }).nullable().optional(),
  /** What was seen since the last adjustment; on all rides where nothing was adjusted, `at` is then null. */
  since: z.object({
    at: z.string().nullable(),
    toLarger: troubleSince,
    toSmaller: troubleSince,
    ghostShifts: count,
    skips: count,
    chainDrops: z.object({ pastLargest: count, pastSmallest: count, elsewhere: count }),
  }),
});

/** The verdict. `causes` holds every cause, the likeliest first; their probabilities sum to 1. */
export const diagnosisSchema = z.object({
  causes: z.array(z.object({ cause: z.enum(causes), probability, evidence: z.array(z.string()) })),
  /** What they were weighed against: less than all rides where some tell nothing, cannot be set in order or are too old. */
  weighed: z.object({
    rides: count,
    judgedShifts: count,
    /** Shifts of which only the rider's answer is known. */
    weakShifts: count,
    /** Ghost shifts, chain drops and skips. */
    events: count,
    pedallingHours: z.number().min(0),
  }),
  lateralOffsetMm: z.object(estimate),
  suggestion: suggestionSchema,
  /** Lateral error of the guide pulley on each cog as of the last ride, inboard positive. */
  lateralErrorMm: z.array(z.object({ teeth: toothCount, ...estimate })),
  /** How far to turn the barrel adjuster or move the electronic offset to set it right, positive = inboard. */
  clicks: z.object({
    parameter: z.enum(['cable-tension', 'index-offset']),
    unit: z.enum(['clicks', 'steps']),
    ...estimate,
  }),
  /** `rideBeforeAt`: start of the last ride without a fault that began suddenly between two rides; `at` is then in the ride after it. */
  onset: z.object({
    kind: z.enum(['sudden', 'gradual', 'steady', 'unknown']),
    at: time.nullable(),
    rideBeforeAt: time.nullable(),
    probability,
  }),
  /** Trouble that gathers at high torque: the rider's part. Rates are null without power. */
  riderPart: z.object({
    probability,
    troubleRateLowTorque: probability.nullable(),
    troubleRateHighTorque: probability.nullable(),
    sentence: z.string(),
  }),
  /** What would tell the two likeliest causes apart; `bySkips`: skips under load tell more than any shift. */
  separates: z.object({ between: twoCauses, bySkips: z.boolean(), sentence: z.string() }).nullable(),
  /** Set where the top cause changes within the plausible range of an assumed constant. */
  undecided: z.object({ between: twoCauses, becauseOf: z.array(z.string()), sentence: z.string() }).nullable(),
  checkRide: z.object({
    blocks: z.array(
      z.object({
        count,
        fromTeeth: toothCount,
        toTeeth: toothCount,
        direction,
        load: z.enum(['soft', 'firm']),
      }),
    ),
    sentences: z.array(z.string()),
    expectedBits: z.number().min(0),
    ordinaryBits: z.number().min(0),
  }),
  /**
   * Set where shifts go wrong that the likeliest cause does not explain, and no other in question explains all; each is weighed as the only fault.
   * `teeth` null: onto the other cogs together; `direction` null: from either side; `foretold`: how many were to go wrong. Absent in reports
   * that an older engine left in a store.
   */
  unexplained: z
    .object({
      places: z.array(
        z.object({
          teeth: toothCount.nullable(),
          direction: direction.nullable(),
          shifts: count,
          trouble: count,
          foretold: z.number().min(0),
        }),
      ),
      /** Which shifts these are, within a sentence. */
      where: z.string(),
      sentence: z.string(),
      /** What to look at. */
      look: z.string(),
    })
    .nullable()
    .optional(),
  now: nowSchema,
  /** Probability that the likeliest fault is still there, as it was named, after the last adjustment; 1, saying nothing, where no shift was judged since. */
  stillThere: probability,
  /** Whether the last adjustment cured it: most likely there no longer, and the rides since do not fail. */
  cured: z.boolean(),
  /** Set where the rides from `at` on shift well though no logged adjustment accounts for it; `adjusted`: one is logged just before them. */
  shiftsWellSince: z.object({ at: time, shifts: count, trouble: count, adjusted: z.boolean() }).nullable(),
  /** Set where no verdict is drawn from the shifts until something else is put right: what that is, in few words and in a sentence. */
  heldBack: z
    .object({ code: z.enum(heldBackCodes), headline: z.string(), sentence: z.string() })
    .nullable()
    .optional(),
  /** What the data cannot tell. */
  notes: z.array(z.string()),
});

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
  oppositeWays: z.object({ better: partSchema, worse: partSchema }).nullable().optional(),
};

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
  endCog: z
    .object({
      teeth: toothCount,
      end: cassetteEnd,
      before: endCogCount,
      after: endCogCount,
    })
    .nullable()
    .optional(),
  probabilityBetter: probability,
  shiftsStillNeeded: count.nullable(),
  ...hiddenByAll,
  /** True where another adjustment was made with no judged shift between: what follows cannot be shared out. */
  sharedPeriod: z.boolean(),
  /** Judged shifts of the rides before and after that are not compared, since a fault began suddenly between them and the rest. */
  leftOut: z.object({ before: count, after: count }),
});

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
  diagnosis: diagnosisSchema,
  adjustments: z.array(adjustmentReportSchema),
});

/** A ride of a bike's report in short: without the lists of what was seen in it, which `counts` sum up. */
export const rideInShortSchema = bikeRideSchema.omit({
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
/** One sign of a lost chain. */
export type DropSignReport = z.infer<typeof dropSignSchema>;
/** One ride by itself. */
export type RideReport = z.infer<typeof rideReportSchema>;
/** One ride of a bike's report. */
export type BikeRide = z.infer<typeof bikeRideSchema>;
/** The verdict of a report. */
export type DiagnosisReport = z.infer<typeof diagnosisSchema>;
/** One cog and direction of a report. */
export type CogReport = z.infer<typeof cogReportSchema>;
/** The riding before or after an adjustment. */
export type PeriodReport = z.infer<typeof periodSchema>;
/** One adjustment of a report. */
export type AdjustmentReport = z.infer<typeof adjustmentReportSchema>;
/** A file that could not be used, and why. */
export type FailedRide = Report['failed'][number];

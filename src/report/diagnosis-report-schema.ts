import { z } from 'zod';
import { causes } from '../diagnosis/causes.ts';
import { cautionKinds } from '../diagnosis/next-step/caution.ts';
import { settingsNow } from '../diagnosis/now/setting-now.ts';
import { heldBackCodes } from './held/held-back-codes.ts';
import {
  cassetteEnd,
  count,
  direction,
  endCogCount,
  probability,
  time,
  toothCount,
  troubleSince,
} from './schema-parts.ts';

/** The next step, with the cautions that go with it. */
const suggestionSchema = z.object({
  /** False where the evidence names no cause. One that is named may have nothing to turn: `parameter` is then `none`. */
  namesCause: z.boolean(),
  /** True where a chain came off: the cautions say what to look over before riding on, whatever is turned. */
  inspectFirst: z.boolean(),
  /** What is left to the rider where everything is left as it is: nothing but to record on, or a few shifts; absent where there is something to do. */
  asks: z.enum(['nothing', 'shifts']).optional(),
  parameter: z.string(),
  /** What to do, in order; absent in reports that an older engine left in a store. */
  steps: z.array(z.string()).optional(),
  /** The same in one. */
  action: z.string(),
  /** The first of `steps` without why, for a list that has no room for more; absent where it is told whole. */
  inShort: z.string().optional(),
  start: z.string(),
  verify: z.string(),
  cautions: z.array(z.string()),
  /** What each of these is of, in their order; absent in reports that an older engine left in a store. */
  cautionKinds: z.array(z.enum(cautionKinds)).optional(),
  /** Which way it is turned, with the sign of the table of adjustments; null where nothing is to be turned, or either way may be right. */
  sense: z.union([z.literal(1), z.literal(-1)]).nullable(),
  /** The part that is looked at first, where it is not `parameter`. */
  looksFirst: z.string().optional(),
  /** What the first of `steps` is about, where that is other work than the step by itself (`none`: no part). */
  firstAbout: z.string().optional(),
});

const estimate = { mean: z.number(), low: z.number(), high: z.number() };
const twoCauses = z.tuple([z.enum(causes), z.enum(causes)]);

const causesSchema = z.array(z.object({ cause: z.enum(causes), probability, evidence: z.array(z.string()) }));
/** What causes were weighed against: less than all rides where some tell nothing, cannot be set in order or are too old. */
const weighedSchema = z.object({
  rides: count,
  judgedShifts: count,
  /** Shifts of which only the rider's answer is known. */
  weakShifts: count,
  /** Ghost shifts, chain drops and skips. */
  events: count,
  pedallingHours: z.number().min(0),
});
/** `rideBeforeAt`: start of the last ride without a fault that began suddenly between two rides; `at` is then in the ride after it. */
const onsetSchema = z.object({
  kind: z.enum(['sudden', 'gradual', 'steady', 'unknown']),
  at: time.nullable(),
  rideBeforeAt: time.nullable(),
  probability,
});
/** Set where the top cause changes within the plausible range of an assumed constant. */
const undecidedSchema = z
  .object({ between: twoCauses, becauseOf: z.array(z.string()), sentence: z.string() })
  .nullable();

/** What is wrong with the bike as it is now; the causes say what was mis-set. */
const nowSchema = z.object({
  /** The likeliest cause as long as it is there, the fault that an adjustment made of it, or `no-fault` once it is cured. */
  fault: z.enum(causes),
  /** `overdone`: an adjustment went past the mark; `another`: it is gone, and the rides since name another; `unsettled`: the rides since do not tell; `untested`: there are none. */
  setting: z.enum(settingsNow),
  /** Where overdone: the last adjustment did it; else an earlier one that is still too much. */
  byLastAdjustment: z.boolean(),
  /** Probability that the setting stands past the mark. */
  pastTheMark: probability,
  /** Ends past which a chain was lost while nothing since shows that it stays on: keep off the cog there. */
  keepOff: z.array(cassetteEnd).optional(),
  /** Ends past which a chain was lost and of which limit and hanger were both looked at or set since; a screw that was turned out does not count. */
  lookedOver: z.array(cassetteEnd).optional(),
  /** Whether what the likeliest cause would have wrong was found right, and that look stands and leads on to the next thing. */
  foundRight: z.boolean().optional(),
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
  causes: causesSchema,
  weighed: weighedSchema,
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
  onset: onsetSchema,
  /** Trouble that gathers at high torque: the rider's part. Rates are null without power. */
  riderPart: z.object({
    probability,
    troubleRateLowTorque: probability.nullable(),
    troubleRateHighTorque: probability.nullable(),
    /** Hardly any shift under light pedalling went wrong, and many under hard: easing off comes before any part. */
    goneWithSoftLegs: z.boolean(),
    sentence: z.string(),
  }),
  /** What would tell the two likeliest causes apart; `bySkips`: skips under load tell more than any shift. */
  separates: z.object({ between: twoCauses, bySkips: z.boolean(), sentence: z.string() }).nullable(),
  undecided: undecidedSchema,
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
  /** The one cog onto which shifts plainly fail more often than onto all others; null where there is none, absent from a report that an older engine left. */
  failsOnto: toothCount.nullable().optional(),
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
  /**
   * Whether a low limit that is named may be a bent hanger: a chain was lost past the largest cog, and nobody has looked at the hanger since. Absent in
   * reports that an older engine left in a store.
   */
  limitOrHanger: z.boolean().optional(),
  /**
   * Set where that fault is most likely gone and the rides since the last adjustment name another by themselves (`now.setting` is `another`). It holds every cause, weighed by
   * those rides alone; the step, `clicks`, the errors and the rider's part are then of this. Absent in reports that an older engine left in a store.
   */
  anotherSince: z
    .object({ causes: causesSchema, weighed: weighedSchema, onset: onsetSchema, undecided: undecidedSchema })
    .nullable()
    .optional(),
  /**
   * Set where the first fault was gone before the last work, another came after it, and the last work seems to have cured that one. It holds every cause, weighed by the rides from
   * `after` on (the work before the last) alone. Absent in reports that an older engine left in a store.
   */
  laterCured: z
    .object({
      after: time,
      causes: causesSchema,
      weighed: weighedSchema,
      onset: onsetSchema,
      undecided: undecidedSchema,
    })
    .nullable()
    .optional(),
  /** Up to when rides were weighed for what was wrong at first, where those since show another fault; null where all rides were, absent from a report that an older engine left. */
  firstUntil: time.nullable().optional(),
  /** Whether the last adjustment cured it: most likely there no longer, and the rides since do not fail. */
  cured: z.boolean(),
  /**
   * Set where the rides from `at` on shift well though no logged adjustment accounts for all of it. `there`: their shifts where the likeliest
   * fault shows; `putRight`: a fault was as good as sure before; `adjusted`: an adjustment is logged just before them; `entryAt`: the last such
   * one that goes against that fault by its part and sign.
   */
  shiftsWellSince: z
    .object({
      ...{ at: time, shifts: count, trouble: count, there: troubleSince },
      ...{ putRight: z.boolean(), adjusted: z.boolean(), entryAt: z.string().nullable() },
    })
    .nullable(),
  /** Set where no verdict is drawn from the shifts until something else is put right: what that is, in few words and in a sentence. */
  heldBack: z
    .object({ code: z.enum(heldBackCodes), headline: z.string(), sentence: z.string() })
    .nullable()
    .optional(),
  /** What the data cannot tell. */
  notes: z.array(z.string()),
});

/** The verdict of a report. */
export type DiagnosisReport = z.infer<typeof diagnosisSchema>;

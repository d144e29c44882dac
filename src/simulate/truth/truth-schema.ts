import { z } from 'zod';
import { dropSides } from '../setting/drop-sides.ts';
import { faultCauses } from '../setting/fault-causes.ts';

const seconds = z.number();
const toothCount = z.number().int();
const side = z.enum(dropSides);
const outcome = z.enum(['clean', 'late', 'missed', 'overshot', 'unjudged']);

/** One commanded shift with what became of it, by the contract's definitions. Times are s since the ride's start. */
const trueShiftSchema = z.object({
  /** True time of the burst's first command, and the time its gear record carries. */
  atS: seconds,
  recordedAtS: seconds,
  /** True time of the burst's last command: revolutions count from here. */
  lastCommandS: seconds,
  fromTeeth: toothCount,
  toTeeth: toothCount,
  direction: z.enum(['to-larger', 'to-smaller']),
  commands: z.number().int(),
  outcome,
  /** Crank turns pedalled from the last command until the chain drove on the commanded cog; null where it never did. */
  crankRevs: z.number().nullable(),
  /** The same, counted from the first command. */
  crankRevsFromFirst: z.number().nullable(),
  settledS: seconds.nullable(),
  /** Mean chain tension over the five crank turns after the command, N. */
  tensionN: z.number(),
});

/** What was really so in one simulated ride. Written beside the ride as JSON. */
export const truthSchema = z.object({
  version: z.literal(1),
  file: z.string(),
  start: z.iso.datetime(),
  durationS: seconds,
  seed: z.number(),
  ride: z.number().int(),
  cause: z.enum(faultCauses),
  severity: z.number(),
  /** The mis-set parameter as it stood in this ride: at its start and, where the fault came during it, from when on. */
  fault: z.object({
    parameter: z.string(),
    unit: z.string(),
    size: z.number(),
    fromS: seconds.nullable(),
  }),
  /** Everything the bike's shifting depended on at the end of the ride (work between rides acts on these). */
  condition: z.object({
    offsetMm: z.number(),
    hangerBendRad: z.number(),
    recentredMm: z.number(),
    frictionN: z.number(),
    lowStopMm: z.number(),
    highStopMm: z.number(),
    gapMm: z.number(),
    worstWear: z.number(),
    clickMm: z.number(),
  }),
  /** Sideways error of the guide pulley under each cog when the cage stands where the shifter put it, mm, smallest cog first. */
  lateralErrorMm: z.array(z.number()),
  bike: z.object({ chainrings: z.array(toothCount), cassette: z.array(toothCount), rolloutMm: z.number() }),
  /** How the log was written. */
  recorder: z.object({
    speedSource: z.enum(['wheel', 'satellite']),
    recorderLagS: z.number(),
    satelliteLagS: z.number(),
    rolloutScale: z.number(),
    recordedChainrings: z.array(toothCount),
    recordedCassette: z.array(toothCount),
  }),
  /** One value a second from second 0: teeth of the cog that drove at that moment, null while the chain was lost. */
  perSecond: z.object({
    cogTeeth: z.array(toothCount.nullable()),
    ringTeeth: z.array(toothCount),
    /** 1 where the crank drove the wheel, 0 where it freewheeled, stood or turned without drive. */
    driving: z.array(z.number().int()),
    cadenceRpm: z.array(z.number()),
  }),
  /** Every change of the driving cog; null = chain lost. */
  gears: z.array(z.object({ atS: seconds, teeth: toothCount.nullable() })),
  /** Every press that moved the shifter. */
  commands: z.array(z.object({ atS: seconds, recordedAtS: seconds, fromTeeth: toothCount, toTeeth: toothCount })),
  shifts: z.array(trueShiftSchema),
  /**
   * Moves over 5 s and five crank turns after the command, held over 1 s: away from the commanded cog, or (`towardsCommand`) at last
   * towards one that was missed.
   */
  ghostShifts: z.array(
    z.object({
      atS: seconds,
      fromTeeth: toothCount,
      toTeeth: toothCount,
      heldS: seconds,
      towardsCommand: z.boolean(),
    }),
  ),
  /** Moves towards the commanded cog over 5 s after the command, but within five crank turns: late, and no ghost. */
  belatedArrivals: z.array(z.object({ atS: seconds, fromTeeth: toothCount, toTeeth: toothCount })),
  chainDrops: z.array(
    z.object({ atS: seconds, side, backOnS: seconds.nullable(), afterShiftTo: toothCount.nullable() }),
  ),
  skips: z.array(z.object({ atS: seconds, teeth: toothCount })),
});

/** The truth about one ride. */
export type RideTruth = z.infer<typeof truthSchema>;
/** The truth about one shift. */
export type TrueShift = z.infer<typeof trueShiftSchema>;

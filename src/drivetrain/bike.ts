import { z } from 'zod';
import { isPossibleRollout, ROLLOUT_MM } from './rollout-limits.ts';
import { COG_TEETH, COGS, RING_TEETH, RINGS } from './tooth-limits.ts';
import { tyreRolloutMm } from './tyre-rollout.ts';

const teeth = z.number().int();
const inNumber =
  ({ least, most }: { readonly least: number; readonly most: number }) =>
  ({ length }: number[]): boolean =>
    length >= least && length <= most;
const rising = (values: number[]): boolean => values.every((value, i) => i === 0 || value > values[i - 1]);

/** Whether a tyre has a rollout that a wheel can have; true as well for what is no tyre size, which is refused as that. */
function fitsAWheel(tyre: string): boolean {
  const rolloutMm = tyreRolloutMm(tyre);
  return Number.isNaN(rolloutMm) || isPossibleRollout(rolloutMm);
}

const tyreFault = (tyre: string): string =>
  `must be a tyre whose wheel turn covers ${ROLLOUT_MM.least} to ${ROLLOUT_MM.most} mm; by pi x (bead seat diameter + 2 x width) this one covers ${Math.round(tyreRolloutMm(tyre))} mm`;

const rolloutFault = (rollout: number): string =>
  `must be ${ROLLOUT_MM.least} to ${ROLLOUT_MM.most} millimetres${isPossibleRollout(rollout * 1000) ? `; if metres were meant, ${Math.round(rollout * 1000)}` : ''}`;

/**
 * The bike file, as riders write it. Teeth, smallest first; `rolloutMm` or `tyre` (ISO 5775-1: width-bead seat
 * diameter, mm) gives the distance a wheel turn covers. With neither, the rollout is estimated from the ride.
 */
export const bikeSchema = z.strictObject({
  /** Blanks at its ends are left out: one of blanks alone could not be seen in any list. */
  name: z
    .string()
    .regex(/^$|\S/, { error: 'must have a character that can be seen', abort: true })
    .trim()
    .min(1)
    .max(120),
  chainrings: z
    .array(teeth.min(RING_TEETH.least).max(RING_TEETH.most))
    .refine(inNumber(RINGS), `must name ${RINGS.least} to ${RINGS.most} chainrings`)
    .refine(rising, 'must rise from the smallest ring to the largest'),
  cassette: z
    .array(teeth.min(COG_TEETH.least).max(COG_TEETH.most))
    .refine(inNumber(COGS), `must name ${COGS.least} to ${COGS.most} cogs`)
    .refine(rising, 'must rise from the smallest cog to the largest'),
  rolloutMm: z
    .number()
    .refine(isPossibleRollout, { error: ({ input }) => rolloutFault(Number(input)) })
    .meta({ minimum: ROLLOUT_MM.least, maximum: ROLLOUT_MM.most })
    .optional(),
  tyre: z
    .string()
    .regex(/^\d{2}(\.\d)?-\d{3}$/, 'must be width-bead seat diameter in mm, for example 57-622')
    .refine(fitsAWheel, { error: ({ input }) => tyreFault(String(input)) })
    .optional(),
  actuation: z.enum(['cable', 'electronic']).default('cable'),
  cogPitchMm: z.number().min(2).max(8).optional(),
});

/** The bike, if it could stand in a bike file; null otherwise. */
export const possibleBike = (bike: Bike): Bike | null => (bikeSchema.safeParse(bike).success ? bike : null);

/** A checked bike file. `cassette[0]` is the smallest cog: a cog's index rises towards the spokes. */
export type Bike = z.infer<typeof bikeSchema>;

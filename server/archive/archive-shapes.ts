import { z } from 'zod';
import { bikeSchema } from '../../src/drivetrain/bike.ts';
import { adjustmentLogShape } from '../shapes/bike-shapes.ts';
import { judgementShape } from '../shapes/ride-shapes.ts';
import { namedBike } from '../store/named-bike.ts';
import { idSchema } from '../store/new-id.ts';
import { workshopMarkSchema } from '../store/workshop-mark.ts';

/**
 * An archive is a zip of `manifest.json`, `bikes.json`, `rides.json` and the ride files, without positions, each as
 * `raw/` and the SHA-256 of the file as it was first sent. Analyses are not in it: they are made again where it is read in.
 */
export const archiveFormat = 'cogwright-archive';
/** Rises when archives of an earlier one can no longer be read as they are. */
export const ARCHIVE_VERSION = 1;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

/** `manifest.json`. */
export const manifestShape = z.object({
  format: z.literal(archiveFormat),
  version: z.number().int().min(1),
  madeAt: z.iso.datetime(),
  /** Rides of `rides.json` whose file was no longer in the data folder: their entry is empty. */
  missing: z.array(z.object({ file: z.string().max(400), sha256 })).default([]),
});

/** `bikes.json`. */
export const archivedBikesShape = z.array(
  z.object({
    id: idSchema,
    bike: z.preprocess(namedBike, bikeSchema),
    source: z.enum(['given', 'guessed']),
    sample: z.boolean().default(false),
    /** What was said when it was guessed. */
    notes: z.array(z.object({ code: z.string(), message: z.string() })).default([]),
    /** How likely a guessed bike is right. */
    certainty: z.number().min(0).max(1).nullable().default(null),
    /** That it is set aside for the workshop. */
    workshopMark: workshopMarkSchema.nullable().default(null),
    adjustments: z.array(adjustmentLogShape),
  }),
);

/** `rides.json`. */
export const archivedRidesShape = z.array(
  z.object({
    bikeId: idSchema.nullable(),
    file: z.string().max(400),
    /** Of the file as it was first sent: tells the same ride on another machine, and names its entry. */
    sha256,
    /** Of the file in the archive. */
    archivedSha256: sha256,
    judgements: z.array(judgementShape),
  }),
);

/** One of `bikes.json`, checked. */
export type ArchivedBike = z.output<typeof archivedBikesShape>[number];
/** One of `rides.json`, checked. */
export type ArchivedRide = z.output<typeof archivedRidesShape>[number];

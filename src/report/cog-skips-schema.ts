import { z } from 'zod';
import { count, toothCount } from './schema-parts.ts';

/** Skips seen on one cog and how long it was pedalled on; with the rate an hour and its 95 % interval, null where it was not pedalled on. */
export const cogSkipsSchema = z.object({
  teeth: toothCount,
  skips: count,
  pedallingS: z.number().min(0),
  perHour: z.number().min(0).nullable(),
  low: z.number().min(0).nullable(),
  high: z.number().min(0).nullable(),
});

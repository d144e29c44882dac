import { z } from 'zod';

const count = z.number().int().min(0);
const known = z.object({ added: count, known: count });

/** What an archive brought, and what was here already. */
export const mergedShape = z.object({
  bikes: z.object({ added: count, merged: count }),
  adjustments: known,
  rides: known.extend({ refused: z.array(z.object({ name: z.string(), message: z.string() })) }),
  judgements: known,
});

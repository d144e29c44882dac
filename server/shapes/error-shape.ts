import { z } from 'zod';

/** One thing that is wrong with a request: where it stands, a key of the body or the name of a file, and what is wrong. */
export const requestDetailShape = z.object({ path: z.string(), message: z.string() });

/** Every refusal of the API: a stable code, a sentence for the reader, and what is wrong where. */
export const errorShape = z.object({
  error: z.object({ code: z.string(), message: z.string(), details: z.array(requestDetailShape).optional() }),
});

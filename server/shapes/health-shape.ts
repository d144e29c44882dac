import { z } from 'zod';

/** That the server runs, and which versions. */
export const healthShape = z.object({ ok: z.literal(true), version: z.string(), engineVersion: z.string() });

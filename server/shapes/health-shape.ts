import { z } from 'zod';

export const healthShape = z.object({ ok: z.literal(true), version: z.string(), engineVersion: z.string() });

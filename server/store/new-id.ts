import { randomBytes } from 'node:crypto';
import { z } from 'zod';

/** A short opaque id: 16 hex digits. */
export const newId = (): string => randomBytes(8).toString('hex');

/** An id as `newId` makes them. */
export const idSchema = z.string().regex(/^[0-9a-f]{16}$/, {
  error: 'must be an id of 16 hex digits',
  // Where an id is one of several things allowed, the words of the whole choice are told, not those of the id.
  abort: true,
});

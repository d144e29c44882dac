import { z } from 'zod';
import { RequestError } from '../http/request-error.ts';

/** The version that a change was made from, in the query of a change. */
export const versionQuery = z.strictObject({
  version: z
    .string()
    .max(64)
    .optional()
    .describe('The `version` that the change was made from: where another stands by now, it is refused'),
});

/** Of what was changed meanwhile, how it is called and how to see it. */
const words = {
  bike: 'This bike was changed elsewhere meanwhile, perhaps in another window. Nothing was saved. Cancel to see how it stands now, then change that.',
  adjustment:
    'This entry was changed elsewhere meanwhile, perhaps in another window. Nothing was saved. Cancel to see how it stands now, then change that.',
} as const;

/** @throws RequestError 409 `changed-meanwhile` where the change was made from another version than the one that stands */
export function refuseChangedMeanwhile(what: keyof typeof words, from: string | undefined, now: string): void {
  if (from !== undefined && from !== now) throw new RequestError(409, 'changed-meanwhile', words[what]);
}

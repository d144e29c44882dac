import type { MeasuredSign } from './drop-candidate.ts';
import { AFTER_COMMAND_S } from './drop-side.ts';

/** The sign that the derailleur stood on an end cog, with the chain there or still to come: how long since that was asked for, as long as it can have led to the loss; NaN: not lately. */
export const endCogSign = (sinceS: number): MeasuredSign =>
  sinceS <= AFTER_COMMAND_S
    ? { sign: 'end-cog-asked', value: Math.max(0, sinceS) }
    : { sign: 'end-cog-held', value: Number.NaN };

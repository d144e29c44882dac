import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import type { Suggestion } from '../diagnosis.ts';
import { generalCautions } from './next-steps.ts';

/** A step by itself, before it is known what comes before it, and whether a chain came off. */
export interface Step extends Omit<Suggestion, 'inspectFirst' | 'action'> {
  /** Ends whose limit it begins with a look at. */
  readonly looksAt?: readonly CassetteEnd[];
}

/** Where nothing is left to do but to ride: what the verdict does then. */
export const KEEP_RECORDING = 'Keep recording; the verdict is worked out again with every ride.';

/** A step that turns nothing and names no cause. */
export const nothingToTurn = (action: string, start: string, verify: string): Step => ({
  namesCause: false,
  parameter: 'none',
  steps: [action],
  start,
  verify,
  cautions: generalCautions,
});

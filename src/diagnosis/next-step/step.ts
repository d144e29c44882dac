import type { Suggestion } from '../diagnosis.ts';
import { generalCautions } from './next-steps.ts';

/** A step by itself, before it is known whether a chain came off. */
export type Step = Omit<Suggestion, 'inspectFirst'>;

/** A step that turns nothing and names no cause. */
export const nothingToTurn = (action: string, start: string, verify: string): Step => ({
  namesCause: false,
  parameter: 'none',
  action,
  start,
  verify,
  cautions: generalCautions,
});

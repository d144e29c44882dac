import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import type { RideFault } from '../store/work-store.ts';

/** The fault of a ride that an error of the engine tells of; any other error is thrown on. */
export function rideFault(error: unknown): RideFault {
  if (error instanceof CogwrightError) return { code: error.code, message: error.message };
  throw error;
}

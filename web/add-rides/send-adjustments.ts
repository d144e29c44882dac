import { CogwrightError } from '../../src/errors/cogwright-error.ts';
import { ApiError } from '../api/api-error.ts';
import { addAdjustmentsFile } from '../api/bikes.ts';
import { takenAdjustments } from '../words/taken-adjustments.ts';
import { handWritten } from './companion-files.ts';

/** What became of a file of adjustments. */
export interface SentAdjustments {
  readonly status: 'done' | 'duplicate' | 'refused';
  readonly message: string;
  readonly added: number;
}

/** Refusals that are about the file: it is to be mended. All else is about the server. */
const aboutTheFile = (error: unknown): error is Error =>
  error instanceof CogwrightError || (error instanceof ApiError && [400, 413, 422].includes(error.status));

/** Takes a file of adjustments into a bike's log; a file that is refused for what it holds is no failure of the work. */
export async function sendAdjustments(bikeId: string, file: File): Promise<SentAdjustments> {
  try {
    const { added, known } = await addAdjustmentsFile(bikeId, file.name, await handWritten(file));
    return { status: added > 0 ? 'done' : 'duplicate', message: takenAdjustments({ added, known }), added };
  } catch (error) {
    if (!aboutTheFile(error)) throw error;
    return { status: 'refused', message: error.message, added: 0 };
  }
}

import type { Warning } from '../../errors/warning.ts';
import type { TurningCranks } from '../samples/pedalled-seconds.ts';
import { isSparse, typicalStepS } from '../samples/typical-step.ts';

/** Code of the warning that a ride's records lie too far apart for much of what is looked for. */
export const sparseRecords = 'sparse-records';

/** Says where a ride's records lie so far apart that late and missed shifts pass between them. */
export function sparseWarning(samples: TurningCranks): Warning | null {
  if (!isSparse(samples)) return null;
  const step = Number(typicalStepS(samples).toFixed(1));
  return {
    code: sparseRecords,
    message: `The records lie about ${step} s apart while pedalling: most late and missed shifts pass unseen between them, and so do skips. Set the recorder to write one record a second.`,
  };
}

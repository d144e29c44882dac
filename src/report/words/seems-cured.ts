import { curedBelow } from '../../diagnosis/cured-below.ts';
import type { Report } from '../report-schema.ts';

/** Below this the likeliest cause is not named alone. */
export const namedAlone = 0.6;

/** From here on a bike in order is likelier than all faults together: then nothing points to a part. */
const soundFrom = 0.5;

/** True where the rides since the last adjustment no longer show the fault that is named. */
export function seemsCured({ diagnosis, adjustments }: Pick<Report, 'diagnosis' | 'adjustments'>): boolean {
  const [first] = diagnosis.causes;
  return (
    first.cause !== 'no-fault' &&
    first.probability >= namedAlone &&
    diagnosis.suggestion.parameter === 'none' &&
    adjustments.length > 0 &&
    diagnosis.stillThere < curedBelow
  );
}

/** True where a fault is likeliest and yet none is named: the evidence is too thin. */
export function namesNone({ diagnosis }: Pick<Report, 'diagnosis'>): boolean {
  return !diagnosis.suggestion.namesCause && diagnosis.causes[0].cause !== 'no-fault';
}

/** True where nothing points to a part, and no assumption turns that. */
export function isSound({ causes: [first], undecided }: Report['diagnosis']): boolean {
  return first.cause === 'no-fault' && first.probability >= soundFrom && !undecided;
}

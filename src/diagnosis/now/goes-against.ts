import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { Cause } from '../causes.ts';
import { touches } from '../sentences/touches.ts';
import { signOfCure } from './turned-towards.ts';

/** As much of an entry as tells which way it goes; `amount` null for a part that was aligned or replaced. */
interface Made {
  readonly parameter: string;
  readonly amount: number | null;
}

/** Whether an entry touches a cause, by its part alone. */
export const touchesCause = (cause: Cause, { parameter }: Made): boolean =>
  touches(cause, parameter as Adjustment['parameter']);

/** Whether an entry goes against a fault: its part seen to, or its setting turned the way that takes it away. */
export function goesAgainst(cause: Cause, made: Made): boolean {
  const sign = signOfCure(cause);
  return touchesCause(cause, made) && (made.amount === null || sign === null || sign * made.amount > 0);
}

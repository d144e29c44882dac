import type { Bike } from '../drivetrain/bike.ts';
import type { Adjustment } from './adjustment.ts';
import { badAdjustments } from './bad-adjustments.ts';
import { type Doubt, doubtfulAdjustment } from './doubtful-adjustment.ts';

/** An adjustment with what is doubtful about it. */
interface DoubtedAdjustment {
  readonly adjustment: Adjustment;
  readonly doubt: Doubt;
}

/** Those adjustments of a file that can hardly be meant. Arguments as of `doubtfulAdjustment`. */
export const doubtedAdjustments = (
  adjustments: readonly Adjustment[],
  actuation: Bike['actuation'] | null,
  nowMs: number,
): DoubtedAdjustment[] =>
  adjustments.flatMap((adjustment) => {
    const doubt = doubtfulAdjustment(adjustment, actuation, nowMs);
    return doubt ? [{ adjustment, doubt }] : [];
  });

/**
 * Refuses a file for what is doubtful in it.
 *
 * @throws FileError `bad-adjustments` that names each, unless there is none
 */
export function refuseDoubts(file: string, doubted: readonly DoubtedAdjustment[]): void {
  if (doubted.length === 0) return;
  throw badAdjustments(
    file,
    doubted.map(({ adjustment: { parameter, at }, doubt }) => `${parameter} of ${at}: ${doubt.message}`),
  );
}

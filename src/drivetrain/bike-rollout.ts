import type { Bike } from './bike.ts';
import { tyreRolloutMm } from './tyre-rollout.ts';

/** Rollout that the bike file states, mm: `rolloutMm` if given, else from `tyre`, else NaN (the ride must tell). */
export function bikeRolloutMm(bike: Pick<Bike, 'rolloutMm' | 'tyre'>): number {
  if (bike.rolloutMm !== undefined) return bike.rolloutMm;
  return bike.tyre === undefined ? Number.NaN : tyreRolloutMm(bike.tyre);
}

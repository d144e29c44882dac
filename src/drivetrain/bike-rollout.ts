import type { Bike } from './bike.ts';
import { tyreRolloutMm } from './tyre-rollout.ts';

/** The rollout of a usual wheel, m, where a bike file names none. An assumption of ours between common road and mountain tyres. */
export const USUAL_ROLLOUT_M = 2.12;

/** Rollout that the bike file states, mm: `rolloutMm` if given, else from `tyre`, else NaN (the ride must tell). */
export function bikeRolloutMm(bike: Pick<Bike, 'rolloutMm' | 'tyre'>): number {
  if (bike.rolloutMm !== undefined) return bike.rolloutMm;
  return bike.tyre === undefined ? Number.NaN : tyreRolloutMm(bike.tyre);
}

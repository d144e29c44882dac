import type { RideReport } from './ride-report-schema.ts';

/** Why no shift of some rides can be judged, however many are ridden: nobody recorded what was asked for, or nothing shows where the chain was. */
export type NothingToJudge = 'no-gear-changes' | 'no-chain-seen';

/** Why no shift of these rides can be judged; null where that is not so, and without rides. */
export function nothingToJudge(rides: readonly Pick<RideReport, 'gearSource' | 'evidence'>[]): NothingToJudge | null {
  if (rides.length === 0) return null;
  if (rides.every(({ gearSource }) => gearSource !== 'recorded')) return 'no-gear-changes';
  return rides.every(({ evidence }) => evidence !== 'full') ? 'no-chain-seen' : null;
}

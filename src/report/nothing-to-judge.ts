import type { RideReport } from './ride-report-schema.ts';

/**
 * Why no shift of some rides can be judged, however many are ridden: nobody recorded what was asked for, or nothing shows where the chain was, for want
 * of a cadence, since each is too short or otherwise.
 */
export type NothingToJudge = 'no-gear-changes' | 'no-cadence' | 'too-short' | 'no-chain-seen';

/** Why no shift of these rides can be judged; null where that is not so, and without rides. */
export function nothingToJudge(
  rides: readonly Pick<RideReport, 'gearSource' | 'evidence' | 'warnings'>[],
): NothingToJudge | null {
  if (rides.length === 0) return null;
  if (rides.every(({ gearSource }) => gearSource !== 'recorded')) return 'no-gear-changes';
  if (rides.some(({ evidence }) => evidence === 'full')) return null;
  const withRecords = rides.filter(({ gearSource }) => gearSource === 'recorded');
  const allSay = (wanted: string): boolean =>
    withRecords.every(({ warnings }) => warnings.some(({ code }) => code === wanted));
  if (allSay('no-cadence')) return 'no-cadence';
  return allSay('too-little-pedalling') ? 'too-short' : 'no-chain-seen';
}

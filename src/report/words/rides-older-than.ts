import { counted } from '../../numeric/counted.ts';
import type { Report } from '../report-schema.ts';
import { ridesThatCount } from '../rides-that-count.ts';

type Dated = Pick<Report['rides'][number], 'start' | 'leftOut'>;

/** How many rides are from before the adjustment since which the bike is judged (ISO time): what they show need not be so still. Empty without any. */
export function ridesOlderThan(report: { readonly rides: readonly Dated[] }, adjustedAt: string): string {
  const rides = ridesThatCount(report);
  const older = rides.filter(({ start }) => Date.parse(start) < Date.parse(adjustedAt)).length;
  if (older === 0) return '';
  return `${older} of the ${counted(rides.length, 'ride')} ${older === 1 ? 'is' : 'are'} from before the last adjustment.`;
}

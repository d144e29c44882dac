import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary } from '../api/answers.ts';
import { day } from './dates.ts';

type Counting = Pick<BikeSummary['state'], 'since' | 'sinceAt' | 'judgedRides'>;

/** What a bike's rate of trouble counts, in the same words wherever it stands: "since the last adjustment (3 May 2026)", "over 4 rides". */
export function troublePeriod({ since, sinceAt, judgedRides }: Counting): string {
  const on = sinceAt === null ? '' : ` (${day(sinceAt)})`;
  switch (since) {
    case 'last-adjustment':
      return `since the last adjustment${on}`;
    case 'onset':
      return `since a fault began suddenly${on}`;
    case 'first-ride':
      return `over ${counted(judgedRides, 'ride')}`;
  }
}

import { figure } from '../../numeric/figure.ts';
import { utcDay } from '../../numeric/moment-words.ts';
import type { ShiftsWellSince } from '../diagnosis.ts';

type Went = Pick<ShiftsWellSince, 'shifts' | 'trouble' | 'there'>;

/** How the newest rides went: over all, and where the fault showed before. */
export function wellWords({ shifts, trouble, there }: Went): string {
  const all = `${figure(trouble)} of ${figure(shifts)} judged shifts went wrong`;
  return there.shifts < shifts
    ? `${all}, ${figure(there.trouble)} of ${figure(there.shifts)} where it showed before`
    : all;
}

/**
 * What is said of newest rides that shift well, to stand within a sentence, where nothing that is logged would have cured the fault: it may be gone,
 * or the rides may not have shown it.
 */
export const notShownWords = (since: Went & Pick<ShiftsWellSince, 'at'>): string =>
  `the trouble ${since.trouble > 0 ? 'hardly showed' : 'did not show'} in the rides since ${utcDay(since.at)} (${wellWords(since)})`;

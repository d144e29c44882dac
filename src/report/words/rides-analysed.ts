import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import type { Report } from '../report-schema.ts';

/**
 * How many rides were read, and how many of them tell nothing of this bike's shifts; why, the notes say.
 *
 * @example '3 rides analysed, 1 of them left out as another bike's'
 */
export function ridesAnalysed({ rides }: Pick<Report, 'rides'>): string {
  const foreign = rides.filter(({ leftOut }) => leftOut !== null).length;
  const aside = rides.filter(({ notTallied }) => notTallied !== null).length;
  const ofThem = (count: number): string => (rides.length === 1 ? 'it is' : `${figure(count)} of them`);
  return [
    `${counted(rides.length, 'ride')} analysed`,
    ...(foreign > 0 ? [`${ofThem(foreign)} left out as another bike's`] : []),
    ...(aside > 0 ? [`${ofThem(aside)} not weighed`] : []),
  ].join(', ');
}

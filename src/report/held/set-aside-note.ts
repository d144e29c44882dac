import { listed } from '../../numeric/listed.ts';
import type { BikeRide } from '../ride-report-schema.ts';

/** Says which rides' shifts are not weighed, where the verdict rests on the others; none where all are. */
export function setAsideNote(rides: readonly BikeRide[]): string[] {
  const aside = rides.filter(({ notTallied }) => notTallied !== null);
  if (aside.length === 0) return [];
  const files = listed(aside.map(({ file }) => file));
  return [`The shifts of ${files} are not weighed; why, the note at ${aside.length === 1 ? 'the ride' : 'each'} says.`];
}

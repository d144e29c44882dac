import type { BikeSummary } from '../api/answers.ts';

const collator = new Intl.Collator('en', { numeric: true });

/** Which of two names stands first, as people count: bike 2 before bike 10. */
export const compareNames = (a: Pick<BikeSummary, 'bike'>, b: Pick<BikeSummary, 'bike'>): number =>
  collator.compare(a.bike.name, b.bike.name);

/** Bikes in order of name, to be picked from. */
export const bikesByName = <Bike extends Pick<BikeSummary, 'bike'>>(bikes: readonly Bike[]): Bike[] =>
  [...bikes].sort(compareNames);

import type { RideSummary } from '../api/answers.ts';

/** True for a ride that does not count since another ride of its bike holds all its records. */
export const isCutCopy = ({ warnings }: Pick<RideSummary, 'warnings'>): boolean =>
  warnings.some(({ code }) => code === 'duplicate');

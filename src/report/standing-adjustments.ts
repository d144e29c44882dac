import type { Report } from './report-schema.ts';

/** The adjustments of a report without what was turned and taken back with no ride between: the bike was never ridden so. In order of time. */
export const standingAdjustments = ({ adjustments }: Pick<Report, 'adjustments'>): Report['adjustments'] =>
  adjustments.filter(({ cancelledOut }) => !cancelledOut);

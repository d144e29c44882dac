import type { Report } from '../report-schema.ts';

type Ride = Report['rides'][number];

/** As much of a report as the verdict's words are made of. */
export type SpokenOf = Pick<Report, 'bike' | 'diagnosis' | 'adjustments'> & {
  readonly rides?: readonly (Pick<Ride, 'gearSource' | 'evidence' | 'warnings' | 'leftOut'> &
    Partial<Pick<Ride, 'chainDrops'>>)[];
  readonly cogs?: Report['cogs'];
};

import type { Report } from '../report-schema.ts';

/** As much of a report as the verdict's words are made of. */
export type SpokenOf = Pick<Report, 'bike' | 'diagnosis' | 'adjustments'> & {
  readonly rides?: readonly Pick<Report['rides'][number], 'gearSource' | 'evidence' | 'warnings' | 'leftOut'>[];
  readonly cogs?: Report['cogs'];
};

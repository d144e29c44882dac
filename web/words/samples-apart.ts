import type { BikeSummary } from '../api/answers.ts';

interface Apart<Bike> {
  readonly own: readonly Bike[];
  readonly samples: readonly Bike[];
}

/** The reader's own bikes and the invented ones that came with the program, which count nowhere among them. */
export const samplesApart = <Bike extends Pick<BikeSummary, 'sample'>>(bikes: readonly Bike[]): Apart<Bike> => ({
  own: bikes.filter(({ sample }) => !sample),
  samples: bikes.filter(({ sample }) => sample),
});

import type { Report } from '../report-schema.ts';

/** Said beside the causes' probabilities where something is left unexplained: each is weighed as the only fault. Else empty. */
export const ifOneFault = ({ diagnosis }: Pick<Report, 'diagnosis'>): string =>
  diagnosis.unexplained ? ', if it is one fault' : '';

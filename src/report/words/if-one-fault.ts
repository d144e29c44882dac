import type { Cause } from '../../diagnosis/causes.ts';
import type { Report } from '../report-schema.ts';

/**
 * Said beside the causes' probabilities where something is left unexplained, since each is weighed as the only fault; else empty.
 *
 * @param cause the cause that it is said of; left out where it is said of all
 */
export function ifOneFault({ diagnosis }: Pick<Report, 'diagnosis'>, cause?: Cause): string {
  if (!diagnosis.unexplained) return '';
  return cause === 'no-fault' ? ', as far as these causes go' : ', if it is one fault';
}

import type { Cause } from '../../src/diagnosis/causes.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';

/** Probability of a cause in a verdict; NaN, which no expectation of a test meets, where the verdict leaves it out. */
export const probabilityOf = ({ causes }: Pick<Diagnosis, 'causes'>, cause: Cause): number =>
  causes.find((one) => one.cause === cause)?.probability ?? Number.NaN;

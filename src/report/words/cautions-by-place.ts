import { isDanger, isSequel } from '../../diagnosis/next-step/caution-place.ts';
import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

type Told = Pick<DiagnosisReport['suggestion'], 'cautions' | 'inspectFirst'>;

/** What leads the sentence that follows the work of the step. */
export const ONCE_DONE = 'Once done';

/** The cautions of a step by where they are read. */
export interface CautionsByPlace {
  /** What to mind, in order. */
  readonly mind: readonly string[];
  /** True where it stands before the step, since it can hurt who rides on: that cannot wait until the step was read. */
  readonly first: boolean;
  /** What follows the work, as a text that stands right after how it begins; null where nothing does. */
  readonly onceDone: string | null;
}

/** Parts what can hurt, and what to mind while working, from what only follows the work. */
export function cautionsByPlace({ cautions, inspectFirst }: Told): CautionsByPlace {
  const sequels = cautions.filter(isSequel);
  return {
    mind: cautions.filter((caution) => !isSequel(caution)),
    first: inspectFirst || cautions.some(isDanger),
    onceDone: sequels.length > 0 ? sequels.join(' ') : null,
  };
}

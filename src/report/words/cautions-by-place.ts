import { isDanger, isSequel } from '../../diagnosis/next-step/caution-place.ts';
import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

type Told = Pick<DiagnosisReport['suggestion'], 'cautions' | 'inspectFirst' | 'namesCause'>;

/** The cautions of a step by where they are read. */
interface CautionsByPlace {
  /** What to mind, in order. */
  readonly mind: readonly string[];
  /** True where it stands before the step, since it can hurt who rides on: that cannot wait until the step was read. */
  readonly first: boolean;
  /** What follows the work, led by when: it stands right after how the step begins. Null where nothing follows. */
  readonly follows: { readonly when: string; readonly what: string } | null;
}

/** Parts what can hurt, and what to mind while working, from what only follows the work. */
export function cautionsByPlace({ cautions, inspectFirst, namesCause }: Told): CautionsByPlace {
  const sequels = cautions.filter(isSequel);
  return {
    mind: cautions.filter((caution) => !isSequel(caution)),
    first: inspectFirst || cautions.some(isDanger),
    // a step that names no cause is a look, which may find nothing to put right
    follows:
      sequels.length > 0
        ? { when: namesCause ? 'Once done' : 'If something is put right', what: sequels.join(' ') }
        : null,
  };
}

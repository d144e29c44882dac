import { type Caution, isDanger } from '../../diagnosis/next-step/caution.ts';
import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

type Told = Pick<DiagnosisReport['suggestion'], 'cautions' | 'cautionKinds' | 'inspectFirst' | 'namesCause'>;

/** The cautions of a step by where they are read. */
interface CautionsByPlace {
  /** What to mind, in order. */
  readonly mind: readonly Caution[];
  /** True where it stands before the step, since it can hurt who rides on: that cannot wait until the step was read. */
  readonly first: boolean;
  /** What follows the work, led by when: it stands right after how the step begins. Null where nothing follows. */
  readonly follows: { readonly when: string; readonly what: string } | null;
}

/** Parts what can hurt, and what to mind while working, from what only follows the work. Where an older engine did not write which is which, all stand before the step. */
export function cautionsByPlace({ cautions, cautionKinds, inspectFirst, namesCause }: Told): CautionsByPlace {
  const all = cautions.map((text, i): Caution => ({ kind: cautionKinds?.[i] ?? 'mind', text }));
  const sequels = all.filter(({ kind }) => kind === 'sequel');
  return {
    mind: all.filter(({ kind }) => kind !== 'sequel'),
    first: inspectFirst || cautionKinds === undefined || all.some(isDanger),
    // a step that names no cause is a look, which may find nothing to put right
    follows:
      sequels.length > 0
        ? {
            when: namesCause ? 'Once done' : 'If something is put right',
            what: sequels.map(({ text }) => text).join(' '),
          }
        : null,
  };
}

import type { DiagnosisReport } from './diagnosis-report-schema.ts';

type Weighed = Pick<DiagnosisReport, 'causes' | 'undecided'>;

/** The causes of what is wrong now, and between which it is open: by the rides since the last adjustment alone where those name another fault, else by all. */
export const causesNow = ({
  anotherSince,
  causes,
  undecided,
}: Weighed & Pick<DiagnosisReport, 'anotherSince'>): Weighed => anotherSince ?? { causes, undecided };

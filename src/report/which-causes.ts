import type { DiagnosisReport } from './diagnosis-report-schema.ts';

/** Causes with the rides they were weighed by, how the likeliest began, and between which it is open. */
type WeighedTogether = Pick<DiagnosisReport, 'causes' | 'weighed' | 'onset' | 'undecided'>;

/** Which of a report's lists of causes speaks of what. */
interface WhichCauses {
  /** The list nearest to today: by the rides since the last adjustment alone where those name another fault, else by all rides together. */
  readonly now: WeighedTogether;
  /** Whether that is by the rides since alone. */
  readonly sinceAlone: boolean;
  /** What all rides together say, where something else is wrong by now: what an adjustment made of it, or a fault that came after it. Else null. */
  readonly atFirst: WeighedTogether | null;
}

/** The one rule for which causes are of today and which of the past. */
export function whichCauses({
  anotherSince,
  causes,
  weighed,
  onset,
  undecided,
  now,
}: WeighedTogether & Pick<DiagnosisReport, 'anotherSince' | 'now'>): WhichCauses {
  const all = { causes, weighed, onset, undecided };
  if (anotherSince) return { now: anotherSince, sinceAlone: true, atFirst: all };
  return { now: all, sinceAlone: false, atFirst: now.setting === 'overdone' ? all : null };
}

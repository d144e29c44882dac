import { NOTHING_NEEDS_TURNING } from '../../diagnosis/next-step/turn-nothing.ts';
import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

type Told = Pick<DiagnosisReport['suggestion'], 'steps' | 'action' | 'start'>;

/** What to do next as it is shown. */
interface StepList {
  /** In order; of several, the first says how it begins. */
  readonly steps: readonly string[];
  /** How to begin, to stand by itself beside a single step; null where the first of several says it, which alone it is of, and where nothing needs to be done, or the step says how. */
  readonly start: string | null;
}

/** What to do next, in order; in one where an older engine wrote no steps. */
export function stepList({ steps, action, start }: Told): StepList {
  const [first, ...rest] = steps && steps.length > 0 ? steps : [action];
  // that nothing needs to be turned is what the step itself says
  if (start === NOTHING_NEEDS_TURNING || start === '') return { steps: [first, ...rest], start: null };
  return rest.length === 0 ? { steps: [first], start } : { steps: [`${first} Begin: ${start}`, ...rest], start: null };
}

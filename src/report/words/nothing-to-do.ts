import { KEEP_RECORDING } from '../../diagnosis/next-step/step.ts';
import { NOTHING_NEEDS_TURNING } from '../../diagnosis/next-step/turn-nothing.ts';
import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

/** Whether the next step asks for no work by hand and no ride of its own: nothing is turned or looked at, only recorded on. */
export const nothingToDo = (diagnosis: Pick<DiagnosisReport, 'suggestion' | 'checkRide'>): boolean =>
  leavesAllAsItIs(diagnosis) && diagnosis.suggestion.verify.endsWith(KEEP_RECORDING);

/** The same, though a few shifts onto an end cog may be asked for. */
export const leavesAllAsItIs = ({
  suggestion,
  checkRide,
}: Pick<DiagnosisReport, 'suggestion' | 'checkRide'>): boolean =>
  suggestion.start === NOTHING_NEEDS_TURNING &&
  (suggestion.steps?.length ?? 1) === 1 &&
  !suggestion.inspectFirst &&
  checkRide.sentences.length === 0;

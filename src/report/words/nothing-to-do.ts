import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

type Asked = Pick<DiagnosisReport, 'suggestion' | 'checkRide'>;

/** Whether the next step asks for no work by hand and no ride of its own: nothing is turned or looked at, only recorded on. */
export const nothingToDo = (diagnosis: Asked): boolean =>
  leavesAllAsItIs(diagnosis) && diagnosis.suggestion.asks === 'nothing';

/** The same, though a few shifts onto an end cog may be asked for. */
export const leavesAllAsItIs = ({ suggestion, checkRide }: Asked): boolean =>
  suggestion.asks !== undefined && checkRide.sentences.length === 0;

import type { DiagnosisReport } from './diagnosis-report-schema.ts';
import { nothingToJudge } from './nothing-to-judge.ts';
import type { RideReport } from './ride-report-schema.ts';

/**
 * The verdict's next step where every ride that holds gear records lacks a cadence: more of them would not let a single shift be judged, nor would a check
 * ride. Leaves a verdict that names a cause its own step.
 */
export function withoutCadence(
  diagnosis: DiagnosisReport,
  rides: readonly Pick<RideReport, 'gearSource' | 'evidence' | 'warnings'>[],
): DiagnosisReport {
  if (diagnosis.heldBack || nothingToJudge(rides) !== 'no-cadence') return diagnosis;
  const { suggestion, checkRide } = diagnosis;
  const step = {
    action:
      'Turn nothing by this report: without cadence no shift can be judged, and more rides without one will not change that.',
    start: 'Pair a cadence sensor with the recorder; the gear changes are there already.',
    verify: 'Look at the verdict again after the first rides with cadence.',
  };
  return {
    ...diagnosis,
    suggestion: suggestion.namesCause
      ? suggestion
      : { ...suggestion, ...step, steps: [step.action], inShort: undefined, asks: undefined },
    checkRide: { ...checkRide, blocks: [], sentences: [] },
  };
}

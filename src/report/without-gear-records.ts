import type { DiagnosisReport } from './diagnosis-report-schema.ts';
import type { RideReport } from './ride-report-schema.ts';

/** True where there are rides and none of them holds a gear record. */
export const holdNoGearChanges = (rides: readonly Pick<RideReport, 'gearSource'>[]): boolean =>
  rides.length > 0 && rides.every(({ gearSource }) => gearSource !== 'recorded');

/**
 * The verdict's next step where no ride holds a gear record: the rider's recorder writes none, so more rides with it, and a check ride
 * too, would not let a single shift be judged. Leaves a verdict that names a cause its own step.
 */
export function withoutGearRecords(
  diagnosis: DiagnosisReport,
  rides: readonly Pick<RideReport, 'gearSource'>[],
): DiagnosisReport {
  if (diagnosis.heldBack || !holdNoGearChanges(rides)) return diagnosis;
  const { suggestion, checkRide } = diagnosis;
  const showsGears = rides.some(({ gearSource }) => gearSource === 'inferred');
  const step = {
    action:
      'Turn nothing by this report: these rides hold no gear changes, so no shift can be judged, and more rides with this recorder will not change that.',
    start: showsGears
      ? 'Go by what the rides do show: lost drive, skips under load, and the cog the chain was on.'
      : 'Ride with speed and cadence recorded: lost drive, skips and the cog the chain was on show without gear changes.',
    verify:
      'To have shifts judged, record gear changes: with a shifting system that writes them into the ride, or as a CSV ride with the column rear_teeth.',
  };
  return {
    ...diagnosis,
    suggestion: suggestion.namesCause
      ? suggestion
      : { ...suggestion, ...step, steps: [step.action], inShort: undefined, asks: undefined },
    checkRide: { ...checkRide, blocks: [], sentences: [] },
  };
}

import type { Adjustment } from '../src/adjustments/adjustment.ts';
import { compareAdjustments } from '../src/adjustments/compare-adjustments.ts';
import { analyseRide, type ChosenBike, engineVersion as numbered } from '../src/analyse.ts';
import { tallyCogs } from '../src/cogs/tally-cogs.ts';
import { diagnose } from '../src/diagnosis/diagnose.ts';
import { guessDrivetrain } from '../src/gear-trace/guess-drivetrain.ts';
import { buildReport } from '../src/report/build-report.ts';
import type { FailedRide, Report, RideReport } from '../src/report/report-schema.ts';
import { rideReport } from '../src/report/ride-report.ts';
import type { RideEvents } from '../src/shifts/ride-events.ts';

/** The one place where the server touches the engine. */
export { analyseRide, guessDrivetrain, rideReport };

/** The engine's version as the store keeps it. */
export const engineVersion = String(numbered);

/** What is kept of an analysed ride to draw the bike's conclusions from: everything but its columns. */
export interface RideFindings {
  /** Unix milliseconds; a moment of 1970 where the log has no clock. */
  readonly startMs: number;
  readonly durationS: number;
  readonly evidence: RideReport['evidence'];
  readonly events: RideEvents;
  readonly report: RideReport;
}

/** Draws the conclusions from the kept findings of a bike's rides, as the engine does from whole analyses. */
export function concludeBike(
  chosen: ChosenBike,
  rides: readonly RideFindings[],
  adjustments: readonly Adjustment[],
  failed: readonly FailedRide[],
): Report {
  const { bike } = chosen;
  const cogs = bike.cassette.length;
  return buildReport({
    ...chosen,
    rides: rides.map(({ report }) => report),
    failed,
    cogs: tallyCogs(
      rides.map(({ events }) => events),
      cogs,
    ),
    diagnosis: diagnose({ bike, rides, adjustments }),
    adjustments: compareAdjustments(rides, adjustments, cogs),
  });
}

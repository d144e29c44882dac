import type { Bike } from '../drivetrain/bike.ts';
import type { Warning } from '../errors/warning.ts';
import type { GearTrace, RideTrace } from '../gear-trace/gear-trace.ts';
import { allPedalledSeconds, type TurningCranks } from '../gear-trace/samples/pedalled-seconds.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { virtualSpeed } from '../ride-log/virtual-speed.ts';
import { chainCogs } from '../shifts/drops/chain-cogs.ts';
import type { LostDrive } from '../shifts/drops/lost-drive.ts';
import type { RideEvents } from '../shifts/ride-events.ts';
import { revolutionClock } from '../shifts/turns/revolution-clock.ts';
import { gearRuns } from './gear-runs.ts';
import { momentIso } from './moment-iso.ts';
import { countEvents } from './ride-counts.ts';
import { rideEventsReport } from './ride-events-report.ts';
import type { RideReport } from './ride-report-schema.ts';
import { roundOrNull, roundTo } from './round-to.ts';

/** The trace of a ride, with its cadence as the legs turned. */
export type TracedGears = GearTrace & { readonly samples: Pick<RideTrace['samples'], 'cadenceRpm'> & TurningCranks };

/** One ride with all that the engine found in it. */
export interface RideAnalysis {
  readonly log: RideLog;
  readonly trace: TracedGears;
  readonly events: RideEvents;
  /** NaN where it is not known. */
  readonly sensorLagS: number;
  readonly lostDrive: readonly LostDrive[];
}

/** The ride's part of the report: teeth for cog indices, ISO times for seconds, numbers rounded. */
export function rideReport(
  { log, trace, events, sensorLagS, lostDrive }: RideAnalysis,
  { cassette }: Pick<Bike, 'cassette'>,
): RideReport {
  const { timeS, startMs } = log;
  const { cadenceRpm } = trace.samples;
  const clock = revolutionClock({ ...log, cadenceRpm });
  return {
    file: log.file,
    format: log.format,
    start: momentIso(startMs, 0),
    durationS: timeS.length > 0 ? roundTo(timeS[timeS.length - 1] - timeS[0], 1) : 0,
    pedallingS: roundTo(allPedalledSeconds(trace.samples), 1),
    gearSource: trace.gearSource,
    evidence: trace.evidence,
    rolloutMm: roundOrNull(trace.rolloutMm, 1),
    sensorLagS: roundOrNull(sensorLagS, 2),
    measured: { chainrings: [...trace.measured.chainrings], cassette: [...trace.measured.cassette] },
    cogsOff: trace.cogsOff.map(({ cogs, rolloutMm, misfit }) => ({
      cogs,
      rolloutMm: roundTo(rolloutMm, 1),
      misfit: roundTo(misfit, 5),
    })),
    counts: countEvents(events),
    ...rideEventsReport(events, { startMs, cassette, clock, sensorLagS }),
    gears: gearRuns(startMs, timeS, chainCogs(trace.cog, lostDrive), cassette),
    warnings: warningsOf(log, trace).map(({ code, message }) => ({ code, message })),
  };
}

/** What was noted of a ride. That a virtual one's speed was not ridden is said once, not again as the reason why no gears show. */
function warningsOf({ warnings }: RideLog, trace: TracedGears): Warning[] {
  const virtual = warnings.some(({ code }) => code === virtualSpeed);
  return [...warnings, ...trace.warnings.filter(({ code }) => !(virtual && code === 'no-gear-bands'))];
}

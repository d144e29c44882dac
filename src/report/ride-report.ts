import type { Bike } from '../drivetrain/bike.ts';
import type { GearTrace, RideTrace } from '../gear-trace/gear-trace.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { revolutionClock } from '../shifts/revolution-clock.ts';
import type { Outcome, RideEvents } from '../shifts/ride-events.ts';
import { gearRuns } from './gear-runs.ts';
import { momentIso } from './moment-iso.ts';
import { pedallingSeconds } from './pedalling-seconds.ts';
import type { RideReport } from './report-schema.ts';
import { roundOrNull, roundTo } from './round-to.ts';
import { shiftTurns } from './shift-turns.ts';

/** The trace of a ride, with its cadence as the legs turned. */
export type TracedGears = GearTrace & { readonly samples: Pick<RideTrace['samples'], 'cadenceRpm'> };

/** One ride with all that the engine found in it. */
export interface RideAnalysis {
  readonly log: RideLog;
  readonly trace: TracedGears;
  readonly events: RideEvents;
}

/** The ride's part of the report: teeth for cog indices, ISO times for seconds, numbers rounded. */
export function rideReport({ log, trace, events }: RideAnalysis, bike: Pick<Bike, 'cassette'>): RideReport {
  const teeth = (cog: number): number => bike.cassette[cog];
  const at = (timeS: number): string => momentIso(log.startMs, timeS);
  const confidence = (value: number): number => roundTo(value, 3);
  const clock = revolutionClock({ ...log, cadenceRpm: trace.samples.cadenceRpm });
  const records = log.timeS.length;
  return {
    file: log.file,
    format: log.format,
    start: at(0),
    durationS: records > 0 ? roundTo(log.timeS[records - 1] - log.timeS[0], 1) : 0,
    pedallingS: roundTo(pedallingSeconds(log.timeS, trace.samples.cadenceRpm), 1),
    gearSource: trace.gearSource,
    evidence: trace.evidence,
    rolloutMm: roundOrNull(trace.rolloutMm, 1),
    sensorLagS: roundOrNull(trace.sensorLagS, 2),
    measured: { chainrings: [...trace.measured.chainrings], cassette: [...trace.measured.cassette] },
    counts: countEvents(events),
    shifts: events.shifts.map((shift) => ({
      at: at(shift.timeS),
      fromTeeth: teeth(shift.fromCog),
      toTeeth: teeth(shift.toCog),
      direction: shift.direction,
      outcome: shift.outcome,
      unjudgedBecause: shift.unjudgedBecause,
      crankRevs: shift.crankRevs === null ? null : roundTo(shift.crankRevs, 2),
      turns: shiftTurns(shift, clock, trace.sensorLagS),
      confidence: confidence(shift.confidence),
      weak: shift.weak,
      torqueNm: roundOrNull(shift.torqueNm, 1),
    })),
    ghostShifts: events.ghostShifts.map((ghost) => ({
      at: at(ghost.timeS),
      fromTeeth: teeth(ghost.fromCog),
      toTeeth: teeth(ghost.toCog),
      heldS: roundTo(ghost.heldS, 1),
      confidence: confidence(ghost.confidence),
    })),
    chainDrops: events.chainDrops.map((drop) => ({
      at: at(drop.timeS),
      side: drop.side,
      afterShiftTo: drop.afterShiftTo === null ? null : teeth(drop.afterShiftTo),
      confidence: confidence(drop.confidence),
    })),
    skips: events.skips.map((skip) => ({
      at: at(skip.timeS),
      teeth: teeth(skip.cog),
      confidence: confidence(skip.confidence),
    })),
    gears: gearRuns(log.startMs, log.timeS, trace.cog, bike.cassette),
    warnings: [...log.warnings, ...trace.warnings].map(({ code, message }) => ({ code, message })),
  };
}

function countEvents(events: RideEvents): RideReport['counts'] {
  const outcomes: Record<Outcome, number> = { clean: 0, late: 0, missed: 0, overshot: 0, unjudged: 0 };
  for (const shift of events.shifts) outcomes[shift.outcome]++;
  return {
    shifts: events.shifts.length,
    ...outcomes,
    ghostShifts: events.ghostShifts.length,
    chainDrops: events.chainDrops.length,
    skips: events.skips.length,
  };
}

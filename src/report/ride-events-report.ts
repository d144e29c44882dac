import type { RideLog } from '../ride-log/ride-log.ts';
import type { ChainDropEvent, GhostShiftEvent, RideEvents, ShiftEvent, SkipEvent } from '../shifts/ride-events.ts';
import type { RevolutionClock } from '../shifts/turns/revolution-clock.ts';
import { dropSignsReport } from './drop-signs-report.ts';
import { momentIso } from './moment-iso.ts';
import { percentMore } from './percent-more.ts';
import type { RideReport } from './ride-report-schema.ts';
import { roundOrNull, roundTo } from './round-to.ts';
import { shiftTurns } from './shift-turns.ts';

/** What turns a ride's own numbers into those of the report. `cassette`: teeth by cog index. */
interface RideFrame {
  readonly startMs: RideLog['startMs'];
  readonly cassette: readonly number[];
  readonly clock: RevolutionClock;
  /** NaN where it is not known. */
  readonly sensorLagS: number;
}

type Reported<Kind extends 'shifts' | 'ghostShifts' | 'chainDrops' | 'skips'> = RideReport[Kind][number];

/** The events of a ride for the report: teeth for cog indices, ISO times for seconds, numbers rounded. */
export function rideEventsReport(
  events: RideEvents,
  frame: RideFrame,
): Pick<RideReport, 'shifts' | 'ghostShifts' | 'chainDrops' | 'skips'> {
  return {
    shifts: events.shifts.map((shift) => shiftReport(shift, frame)),
    ghostShifts: events.ghostShifts.map((ghost) => ghostReport(ghost, frame)),
    chainDrops: events.chainDrops.map((drop) => dropReport(drop, frame)),
    skips: events.skips.map((skip) => skipReport(skip, frame)),
  };
}

function shiftReport(shift: ShiftEvent, { startMs, cassette, clock, sensorLagS }: RideFrame): Reported<'shifts'> {
  return {
    at: momentIso(startMs, shift.timeS),
    fromTeeth: cassette[shift.fromCog],
    toTeeth: cassette[shift.toCog],
    direction: shift.direction,
    outcome: shift.outcome,
    unjudgedBecause: shift.unjudgedBecause,
    crankRevs: shift.crankRevs === null ? null : roundTo(shift.crankRevs, 2),
    turns: shiftTurns(shift, clock, sensorLagS),
    confidence: confidence(shift),
    outcomeChances: shift.outcome === 'unjudged' ? null : chances(shift.probability),
    weak: shift.weak,
    torqueNm: roundOrNull(shift.torqueNm, 1),
  };
}

const chances = ({ clean, late, missed, overshot }: ShiftEvent['probability']) => ({
  clean: roundTo(clean, 3),
  late: roundTo(late, 3),
  missed: roundTo(missed, 3),
  overshot: roundTo(overshot, 3),
});

function ghostReport(ghost: GhostShiftEvent, { startMs, cassette }: RideFrame): Reported<'ghostShifts'> {
  return {
    at: momentIso(startMs, ghost.timeS),
    fromTeeth: cassette[ghost.fromCog],
    toTeeth: cassette[ghost.toCog],
    // one held over 1 s is not told as one of 1 s
    heldS: Math.max(1.1, roundTo(ghost.heldS, 1)),
    towardsCommand: ghost.towardsCommand ?? false,
    confidence: confidence(ghost),
  };
}

function dropReport(drop: ChainDropEvent, { startMs, cassette }: RideFrame): Reported<'chainDrops'> {
  return {
    at: momentIso(startMs, drop.timeS),
    side: drop.side,
    afterShiftTo: drop.afterShiftTo === null ? null : (cassette[drop.afterShiftTo] ?? null),
    confidence: confidence(drop),
    ...(drop.signs && { signs: dropSignsReport(drop.signs) }),
  };
}

function skipReport(skip: SkipEvent, { startMs, cassette }: RideFrame): Reported<'skips'> {
  const { timeS, cog, leap } = skip;
  return {
    at: momentIso(startMs, timeS),
    teeth: cassette[cog],
    confidence: confidence(skip),
    ...(leap !== undefined && { leapPercent: roundTo(percentMore(leap), 1) }),
  };
}

const confidence = (event: { readonly confidence: number }): number => roundTo(event.confidence, 3);

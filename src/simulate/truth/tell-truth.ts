import type { BikeCondition } from '../mechanics/bike-condition.ts';
import type { FaultSize } from '../mechanics/impose-fault.ts';
import { type MechanicalTrack, trackHz } from '../mechanics/mechanical-track.ts';
import type { RecordedRide } from '../sensors/recorded-ride.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';
import { judgeShifts, turnsAt } from './judge-shifts.ts';
import { lateralErrors } from './lateral-errors.ts';
import type { RideTruth, TrueShift } from './truth-schema.ts';
import { unaskedMoves } from './unasked-moves.ts';

/** Writes down what was really so in one ride. */
export function tellTruth(
  track: MechanicalTrack,
  recorded: RecordedRide,
  options: ResolvedOptions,
  ride: number,
  bike: { readonly condition: BikeCondition; readonly fault: FaultSize; readonly faultFromS: number | null },
): RideTruth {
  const { cassette, chainrings } = options.bike;
  const { condition } = bike;
  const teeth = (cog: number): number => cassette[cog];
  const teethOrLost = (cog: number): number | null => (cog < 0 ? null : cassette[cog]);
  const { ghosts, belated } = unaskedMoves(track);
  const asMove = (move: { timeS: number; fromCog: number; toCog: number }) => ({
    atS: round(move.timeS),
    fromTeeth: teeth(move.fromCog),
    toTeeth: teeth(move.toCog),
  });
  return {
    version: 1,
    file: recorded.log.file,
    start: new Date(recorded.log.startMs).toISOString(),
    durationS: (track.samples - 1) / trackHz,
    seed: options.seed,
    ride,
    cause: options.cause,
    severity: options.severity,
    fault: { ...bike.fault, size: round(bike.fault.size), fromS: bike.faultFromS },
    condition: {
      offsetMm: round(condition.offsetMm),
      hangerBendRad: round(condition.hangerBendRad),
      recentredMm: round(condition.recentredMm),
      frictionN: round(condition.frictionN),
      lowStopMm: round(condition.lowStopMm),
      highStopMm: round(condition.highStopMm),
      gapMm: round(condition.gapMm),
      worstWear: round(Math.max(...condition.wear)),
      clickMm: round(condition.clickMm),
    },
    lateralErrorMm: lateralErrors(condition).map(round),
    bike: { chainrings: [...chainrings], cassette: [...cassette], rolloutMm: options.rolloutMm },
    recorder: {
      speedSource: options.speedSource,
      recorderLagS: round(options.recorderLagS),
      satelliteLagS: options.speedSource === 'satellite' ? round(options.satelliteLagS) : 0,
      rolloutScale: options.speedSource === 'wheel' ? options.rolloutScale : 1,
      recordedChainrings: [...options.recordedTeeth.chainrings],
      recordedCassette: [...options.recordedTeeth.cassette],
    },
    perSecond: perSecond(track, options),
    gears: track.cogChanges.map((change) => ({ atS: round(change.timeS), teeth: teethOrLost(change.cog) })),
    commands: track.commands.map((command, i) => ({
      ...asMove(command),
      recordedAtS: round(recorded.commandRecordedS[i]),
    })),
    shifts: shifts(track, recorded, cassette),
    ghostShifts: ghosts.map((move) => ({ ...asMove(move), heldS: round(move.heldS) })),
    belatedArrivals: belated.map(asMove),
    chainDrops: track.drops.map((drop) => ({
      atS: round(drop.timeS),
      side: drop.side,
      backOnS: nullable(track.cogChanges.find((change) => change.timeS > drop.timeS && change.cog >= 0)?.timeS),
      afterShiftTo: track.commands.some((c) => c.timeS <= drop.timeS && c.timeS > drop.timeS - 5)
        ? teeth(drop.commandedCog)
        : null,
    })),
    skips: track.skips.map((skip) => ({ atS: round(skip.timeS), teeth: teeth(skip.cog) })),
  };
}

function shifts(track: MechanicalTrack, recorded: RecordedRide, cassette: readonly number[]): TrueShift[] {
  const judged = judgeShifts(track, recorded.commandRecordedS, recorded.log.gearRecords.wholeSeconds);
  return judged.map((shift) => {
    const last = track.commands[shift.end - 1];
    return {
      atS: round(track.commands[shift.first].timeS),
      recordedAtS: round(recorded.commandRecordedS[shift.first]),
      lastCommandS: round(last.timeS),
      fromTeeth: cassette[shift.fromCog],
      toTeeth: cassette[shift.toCog],
      direction: shift.toCog > shift.fromCog ? 'to-larger' : 'to-smaller',
      commands: shift.end - shift.first,
      outcome: shift.outcome,
      crankRevs: nullable(shift.crankRevs),
      crankRevsFromFirst: nullable(shift.crankRevsFromFirst),
      settledS: nullable(shift.settledS),
      tensionN: round(meanTension(track, last.timeS, last.crankTurns)),
    };
  });
}

function meanTension(track: MechanicalTrack, fromS: number, fromTurns: number): number {
  let sum = 0;
  let samples = 0;
  for (let i = Math.ceil(fromS * trackHz); i < track.samples && track.crankTurns[i] < fromTurns + 5; i++) {
    if (samples > 10 * trackHz) break;
    sum += track.tensionN[i];
    samples++;
  }
  return samples === 0 ? 0 : sum / samples;
}

function perSecond(track: MechanicalTrack, options: ResolvedOptions): RideTruth['perSecond'] {
  const seconds = Math.floor((track.samples - 1) / trackHz) + 1;
  const columns: RideTruth['perSecond'] = { cogTeeth: [], ringTeeth: [], driving: [], cadenceRpm: [] };
  for (let s = 0; s < seconds; s++) {
    const i = s * trackHz;
    columns.cogTeeth.push(track.cog[i] < 0 ? null : options.bike.cassette[track.cog[i]]);
    columns.ringTeeth.push(options.bike.chainrings[track.ring[i]]);
    columns.driving.push(track.driving[i]);
    columns.cadenceRpm.push(Math.round(60 * (turnsAt(track, s + 0.25) - turnsAt(track, s - 0.25)) * 2));
  }
  return columns;
}

const round = (value: number): number => Math.round(value * 1000) / 1000;
const nullable = (value: number | null | undefined): number | null =>
  value === null || value === undefined ? null : round(value);

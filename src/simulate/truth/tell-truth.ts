import type { BikeCondition } from '../mechanics/bike-condition.ts';
import type { FaultSize } from '../mechanics/impose-fault.ts';
import { type MechanicalTrack, TRACK_HZ } from '../mechanics/mechanical-track.ts';
import type { RecordedRide } from '../sensors/recorded-ride.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';
import { turnsAt } from './judge-shifts.ts';
import { lateralErrors } from './lateral-errors.ts';
import { rounded, roundedOrNull } from './rounded.ts';
import { trueShifts } from './true-shifts.ts';
import type { RideTruth } from './truth-schema.ts';
import { unaskedMoves } from './unasked-moves.ts';

/** The bike at the end of a ride, and its fault. */
interface FaultyBike {
  readonly condition: BikeCondition;
  readonly fault: FaultSize;
  readonly faultFromS: number | null;
}

/** Writes down what was really so in one ride. */
export function tellTruth(
  track: MechanicalTrack,
  recorded: RecordedRide,
  options: ResolvedOptions,
  ride: number,
  { condition, fault, faultFromS }: FaultyBike,
): RideTruth {
  const { cassette, chainrings } = options.bike;
  return {
    version: 1,
    file: recorded.log.file,
    start: new Date(recorded.log.startMs).toISOString(),
    durationS: (track.samples - 1) / TRACK_HZ,
    seed: options.seed,
    ride,
    cause: options.cause,
    severity: options.severity,
    fault: { ...fault, size: rounded(fault.size), fromS: faultFromS },
    condition: conditionTruth(condition),
    lateralErrorMm: lateralErrors(condition).map(rounded),
    bike: { chainrings: [...chainrings], cassette: [...cassette], rolloutMm: options.rolloutMm },
    recorder: recorderTruth(options),
    perSecond: perSecond(track, options),
    gears: track.cogChanges.map(({ timeS, cog }) => ({ atS: rounded(timeS), teeth: cog < 0 ? null : cassette[cog] })),
    commands: track.commands.map((command, i) => ({
      ...moveTruth(command, cassette),
      recordedAtS: rounded(recorded.commandRecordedS[i]),
    })),
    shifts: trueShifts(track, recorded, cassette),
    ...unaskedTruth(track, cassette),
    chainDrops: dropsTruth(track, cassette),
    skips: track.skips.map((skip) => ({ atS: rounded(skip.timeS), teeth: cassette[skip.cog] })),
  };
}

function conditionTruth(condition: BikeCondition): RideTruth['condition'] {
  return {
    offsetMm: rounded(condition.offsetMm),
    hangerBendRad: rounded(condition.hangerBendRad),
    recentredMm: rounded(condition.recentredMm),
    frictionN: rounded(condition.frictionN),
    lowStopMm: rounded(condition.lowStopMm),
    highStopMm: rounded(condition.highStopMm),
    gapMm: rounded(condition.gapMm),
    worstWear: rounded(Math.max(...condition.wear)),
    clickMm: rounded(condition.clickMm),
  };
}

function recorderTruth(options: ResolvedOptions): RideTruth['recorder'] {
  return {
    speedSource: options.speedSource,
    recorderLagS: rounded(options.recorderLagS),
    satelliteLagS: options.speedSource === 'satellite' ? rounded(options.satelliteLagS) : 0,
    rolloutScale: options.speedSource === 'wheel' ? options.rolloutScale : 1,
    recordedChainrings: [...options.recordedTeeth.chainrings],
    recordedCassette: [...options.recordedTeeth.cassette],
  };
}

function perSecond(track: MechanicalTrack, options: ResolvedOptions): RideTruth['perSecond'] {
  const seconds = Math.floor((track.samples - 1) / TRACK_HZ) + 1;
  const columns: RideTruth['perSecond'] = { cogTeeth: [], ringTeeth: [], driving: [], cadenceRpm: [] };
  for (let s = 0; s < seconds; s++) {
    const i = s * TRACK_HZ;
    columns.cogTeeth.push(track.cog[i] < 0 ? null : options.bike.cassette[track.cog[i]]);
    columns.ringTeeth.push(options.bike.chainrings[track.ring[i]]);
    columns.driving.push(track.driving[i]);
    columns.cadenceRpm.push(Math.round(60 * (turnsAt(track, s + 0.25) - turnsAt(track, s - 0.25)) * 2));
  }
  return columns;
}

/** A move from cog to cog, in teeth. */
function moveTruth(move: { timeS: number; fromCog: number; toCog: number }, cassette: readonly number[]) {
  return { atS: rounded(move.timeS), fromTeeth: cassette[move.fromCog], toTeeth: cassette[move.toCog] };
}

function unaskedTruth(
  track: MechanicalTrack,
  cassette: readonly number[],
): Pick<RideTruth, 'ghostShifts' | 'belatedArrivals'> {
  const { ghosts, belated } = unaskedMoves(track);
  return {
    ghostShifts: ghosts.map((move) => ({
      ...moveTruth(move, cassette),
      heldS: rounded(move.heldS),
      towardsCommand: move.towardsCommand,
    })),
    belatedArrivals: belated.map((move) => moveTruth(move, cassette)),
  };
}

function dropsTruth(track: MechanicalTrack, cassette: readonly number[]): RideTruth['chainDrops'] {
  return track.drops.map((drop) => {
    const backOn = track.cogChanges.find((change) => change.timeS > drop.timeS && change.cog >= 0);
    const afterShift = track.commands.some((c) => c.timeS <= drop.timeS && c.timeS > drop.timeS - 5);
    return {
      atS: rounded(drop.timeS),
      side: drop.side,
      backOnS: roundedOrNull(backOn?.timeS),
      afterShiftTo: afterShift ? cassette[drop.commandedCog] : null,
    };
  });
}

import { type MechanicalTrack, TRACK_HZ } from '../mechanics/mechanical-track.ts';
import type { RecordedRide } from '../sensors/recorded-ride.ts';
import { judgeShifts } from './judge-shifts.ts';
import { rounded, roundedOrNull } from './rounded.ts';
import type { TrueShift } from './truth-schema.ts';

/** Every commanded shift of a ride, with what became of it. */
export function trueShifts(track: MechanicalTrack, recorded: RecordedRide, cassette: readonly number[]): TrueShift[] {
  const judged = judgeShifts(track, recorded.commandRecordedS, recorded.log.gearRecords.wholeSeconds);
  return judged.map((shift) => {
    const last = track.commands[shift.end - 1];
    return {
      atS: rounded(track.commands[shift.first].timeS),
      recordedAtS: rounded(recorded.commandRecordedS[shift.first]),
      lastCommandS: rounded(last.timeS),
      fromTeeth: cassette[shift.fromCog],
      toTeeth: cassette[shift.toCog],
      direction: shift.toCog > shift.fromCog ? 'to-larger' : 'to-smaller',
      commands: shift.end - shift.first,
      outcome: shift.outcome,
      crankRevs: roundedOrNull(shift.crankRevs),
      crankRevsFromFirst: roundedOrNull(shift.crankRevsFromFirst),
      settledS: roundedOrNull(shift.settledS),
      tensionN: rounded(meanTension(track, last.timeS, last.crankTurns)),
    };
  });
}

/** Mean over the five crank turns after a moment, within 10 s, N. */
function meanTension(track: MechanicalTrack, fromS: number, fromTurns: number): number {
  let sum = 0;
  let samples = 0;
  for (let i = Math.ceil(fromS * TRACK_HZ); i < track.samples && track.crankTurns[i] < fromTurns + 5; i++) {
    if (samples > 10 * TRACK_HZ) break;
    sum += track.tensionN[i];
    samples++;
  }
  return samples === 0 ? 0 : sum / samples;
}

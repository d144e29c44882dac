import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { GearRecords } from '../../ride-log/ride-log.ts';
import type { MechanicalTrack } from '../mechanics/mechanical-track.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';

/** How often the shifter tells its position, s: faster presses fold into one record. */
const REPORT_EVERY_S = 0.25;

interface Change {
  readonly timeS: number;
  readonly cog: number;
  readonly ring: number;
}

/**
 * Gear records of a ride. The first is a state; quick presses may fold into one record; now and then a record repeats
 * what was known. Returns too the time each command was recorded with.
 */
export function recordGears(
  track: MechanicalTrack,
  options: ResolvedOptions,
  random: SeededRandom,
): { records: GearRecords; commandRecordedS: Float64Array } {
  const stamp = (timeS: number): number => (options.gearTimes === 'exact' ? timeS : Math.floor(timeS));
  const phase = random.uniform() * REPORT_EVERY_S;
  const reportedAt = (timeS: number): number => Math.ceil((timeS - phase) / REPORT_EVERY_S) * REPORT_EVERY_S + phase;
  const changes = gearChanges(track, reportedAt, random);
  const commandRecordedS = Float64Array.from(track.commands, (command) => stamp(reportedAt(command.timeS)));
  const { cassette, chainrings } = options.recordedTeeth;
  const front = options.gearRecords === 'both';
  const kept = options.gearRecords === 'none' ? [] : changes;
  return {
    records: {
      timeS: Float64Array.from(kept, (change) => stamp(change.timeS)),
      rearTeeth: Uint8Array.from(kept, (change) => cassette[change.cog]),
      frontTeeth: Uint8Array.from(kept, (change) => (front ? chainrings[change.ring] : 0)),
      rearPosition: Uint8Array.from(kept, (change) => cassette.length - change.cog),
      frontPosition: Uint8Array.from(kept, (change) => (front ? change.ring + 1 : 0)),
      wholeSeconds: options.gearTimes === 'whole-seconds',
    },
    commandRecordedS,
  };
}

function gearChanges(track: MechanicalTrack, reportedAt: (timeS: number) => number, random: SeededRandom): Change[] {
  const moves = [
    ...track.commands.map((command) => ({ timeS: command.timeS, cog: command.toCog, ring: -1 })),
    ...track.ringCommands.map((command) => ({ timeS: command.timeS, cog: -1, ring: command.ring })),
  ].sort((a, b) => a.timeS - b.timeS);
  let cog = track.startCog;
  let ring = track.startRing;
  const changes: Change[] = [{ timeS: 0, cog, ring }];
  for (const move of moves) {
    if (move.cog >= 0) cog = move.cog;
    if (move.ring >= 0) ring = move.ring;
    const timeS = reportedAt(move.timeS);
    const last = changes[changes.length - 1];
    if (changes.length > 1 && last.timeS === timeS) changes[changes.length - 1] = { timeS, cog, ring };
    else changes.push({ timeS, cog, ring });
    if (random.chance(0.03)) changes.push({ timeS: timeS + REPORT_EVERY_S * (1 + random.integer(3)), cog, ring });
  }
  return inOrder(changes);
}

/** Repeats are dropped where the next true change came before them. */
function inOrder(changes: readonly Change[]): Change[] {
  return changes.filter((change, i) => i + 1 >= changes.length || changes[i + 1].timeS > change.timeS);
}

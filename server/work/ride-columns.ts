import type { Bike } from '../../src/drivetrain/bike.ts';
import { latestIndex } from '../../src/gear-trace/commands/gear-commands.ts';
import type { RideTrace } from '../../src/gear-trace/gear-trace.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { chainCogs } from '../../src/shifts/drops/chain-cogs.ts';
import type { AnalysedRide } from '../engine.ts';

/** Columns of a ride for its timeline. All lists have one length; null: no value at that moment. */
export interface RideColumns {
  readonly startMs: number;
  readonly chainrings: readonly number[];
  readonly cassette: readonly number[];
  readonly timeS: readonly number[];
  readonly speedMps: readonly (number | null)[];
  readonly cadenceRpm: readonly (number | null)[];
  readonly powerW: readonly (number | null)[];
  /** Where the derailleur was told to go. */
  readonly commandedTeeth: readonly (number | null)[];
  /** Where the chain was; null while drive was lost too. */
  readonly actualTeeth: readonly (number | null)[];
  readonly ring: readonly (number | null)[];
  readonly driving: readonly number[];
  readonly cogProbability: readonly number[];
  /** Spells in which drive was lost, s since the start: `toS` is the first record that was driven again, or beyond the last one. */
  readonly lostDrive: readonly { readonly fromS: number; readonly toS: number }[];
}

/** The last record stands for so long after it. */
const LAST_RECORD_S = 1;

/** The columns that the page draws, rounded to what a chart can show. */
export function rideColumns({ log, trace, lostDrive }: AnalysedRide, bike: Bike): RideColumns {
  const timeS = rounded(log.timeS, 1000) as number[];
  return {
    startMs: log.startMs,
    chainrings: bike.chainrings,
    cassette: bike.cassette,
    timeS,
    speedMps: rounded(log.speedMps, 100),
    cadenceRpm: rounded(log.cadenceRpm, 10),
    powerW: rounded(log.powerW, 1),
    commandedTeeth: teeth(commandedCogs(log, trace), bike.cassette),
    actualTeeth: teeth(chainCogs(trace.cog, lostDrive), bike.cassette),
    ring: teeth(trace.ring, bike.chainrings),
    driving: rounded(trace.driving, 100) as number[],
    cogProbability: rounded(trace.cogProbability, 100) as number[],
    lostDrive: lostDrive.map(({ start, end }) => ({
      fromS: timeS[start],
      toS: timeS[end] ?? timeS[timeS.length - 1] + LAST_RECORD_S,
    })),
  };
}

/** The cog asked for at each record, as the gear records have it in time; -1 where it is not known. */
function commandedCogs({ timeS }: RideLog, { commands, recordsLateS }: RideTrace): Int8Array {
  const written = commands.timeS.map((s) => s + recordsLateS);
  return Int8Array.from(latestIndex(timeS, written), (index) => (index >= 0 ? commands.cog[index] : -1));
}

/** NaN becomes null. `steps`: how many steps a whole number is parted into. */
const rounded = (values: ArrayLike<number>, steps: number): (number | null)[] =>
  Array.from(values, (value) => (Number.isFinite(value) ? Math.round(value * steps) / steps : null));

const teeth = (indices: Int8Array, sizes: readonly number[]): (number | null)[] =>
  Array.from(indices, (index) => sizes[index] ?? null);

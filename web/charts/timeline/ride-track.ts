import { bisectLeft } from 'd3-array';
import type { LostSpell } from '../../../src/report/charts/lost-spells.ts';
import type { RideColumns } from '../../api/answers.ts';
import { type Envelope, makeEnvelope } from './envelope.ts';
import { withoutLag } from './without-lag.ts';

/** A ride as the timeline needs it: one shared index, NaN for missing, cogs as places in the cassette (0 = smallest). */
export interface RideTrack {
  readonly startMs: number;
  readonly cassette: readonly number[];
  readonly timeS: Float64Array;
  readonly durationS: number;
  readonly commanded: Envelope;
  /** The cog the chain was on, as the sensors show it. */
  readonly actual: Envelope;
  /** The same with the sensors' lag taken off: beside `commanded`, a shift that came through at once shows as one. */
  readonly chain: Envelope;
  /** How late the sensors follow the gear, s; null where it is not known. */
  readonly sensorLagS: number | null;
  readonly speedKmh: Envelope;
  readonly cadenceRpm: Envelope;
  readonly powerW: Envelope;
  /** More than one ring: which one is worth saying. */
  readonly hasRings: boolean;
  /** Teeth of the ring the chain is thought to be on. */
  readonly ring: Float32Array;
  /** Where the engine found drive to be lost. */
  readonly lost: readonly LostSpell[];
}

/** Longer without a record than this is a pause: lines are broken there. */
export const GAP_S = 10;

/** Makes the track of a ride's columns. `sensorLagS` as in its report. */
export function makeTrack(columns: RideColumns, sensorLagS: number | null = null): RideTrack {
  const numbers = (column: readonly (number | null)[], change = (value: number) => value): Float32Array =>
    Float32Array.from(column, (value) => (value === null ? Number.NaN : change(value)));
  const place = (teeth: number): number => {
    const index = columns.cassette.indexOf(teeth);
    return index < 0 ? Number.NaN : index;
  };
  const timeS = Float64Array.from(columns.timeS);
  const actual = numbers(columns.actualTeeth, place);
  return {
    startMs: columns.startMs,
    cassette: columns.cassette,
    timeS,
    durationS: timeS.length > 0 ? timeS[timeS.length - 1] : 0,
    commanded: makeEnvelope(numbers(columns.commandedTeeth, place)),
    actual: makeEnvelope(actual),
    chain: makeEnvelope(withoutLag(actual, { timeS, lagS: sensorLagS, lost: columns.lostDrive, gapS: GAP_S })),
    sensorLagS,
    speedKmh: makeEnvelope(numbers(columns.speedMps, (mps) => mps * 3.6)),
    cadenceRpm: makeEnvelope(numbers(columns.cadenceRpm)),
    powerW: makeEnvelope(numbers(columns.powerW)),
    hasRings: columns.chainrings.length > 1,
    ring: numbers(columns.ring),
    lost: columns.lostDrive,
  };
}

/** Index of the first sample at or after a moment. */
export const sampleFrom = (track: RideTrack, timeS: number): number => bisectLeft(track.timeS, timeS);

/** Index of the sample nearest to a moment; −1 for an empty ride. */
export function nearestSample(track: RideTrack, timeS: number): number {
  const at = Math.min(sampleFrom(track, timeS), track.timeS.length - 1);
  return at > 0 && timeS - track.timeS[at - 1] < track.timeS[at] - timeS ? at - 1 : at;
}

/** True where a column holds any value at all. */
export function hasValues(envelope: Envelope): boolean {
  return envelope.levels[envelope.levels.length - 1].low.some((value) => !Number.isNaN(value));
}

/** True where two neighbouring samples have a pause between them. */
export const isGap = (track: RideTrack, sample: number): boolean =>
  sample > 0 && track.timeS[sample] - track.timeS[sample - 1] > GAP_S;

import { PEDALLING_RPM } from '../../../src/gear-trace/pedalling-rpm.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../../../src/shifts/turn-limits.ts';
import type { RideTrack } from '../timeline/ride-track.ts';
import { sampleFrom } from '../timeline/ride-track.ts';

/** How much of a ride is shown before an event and after it, s. */
export const beforeS = 10;
export const afterS = 20;

/** One record of the moment. Cogs are teeth; NaN for missing. */
export interface MomentSample {
  /** Seconds from the event. */
  readonly s: number;
  readonly askedTeeth: number;
  readonly chainTeeth: number;
  /** The cog, in teeth, that speed against cadence points to; NaN where they cannot tell. */
  readonly ratioTeeth: number;
  readonly speedKmh: number;
  readonly cadenceRpm: number;
  readonly powerW: number;
}

/** The thirty seconds around an event. */
export interface Moment {
  readonly cassette: readonly number[];
  readonly samples: readonly MomentSample[];
  /** Seconds from the event when the crank had turned so far; null where it did not within the moment. */
  readonly cleanUntilS: number | null;
  readonly lateUntilS: number | null;
  /** Seconds from the event when the engine judged the shift to be done; null where it was not, or is not known. */
  readonly judgedAtS: number | null;
}

/** What is known of the ride and the event beside the columns. */
interface MomentFacts {
  readonly rolloutMm: number | null;
  /** How much later the records show the wheel than the gear. */
  readonly sensorLagS: number | null;
  /** Crank revolutions the shift took, as judged; null for anything else. */
  readonly crankRevs: number | null;
}

/** Slower, the speed is too rough to divide by. */
const slowestKmh = 3;

/** Teeth of the cog that would give this speed at this cadence. */
function ratioTeeth(ring: number, rolloutMm: number, cadenceRpm: number, speedKmh: number): number {
  if (!(cadenceRpm > PEDALLING_RPM) || !(speedKmh > slowestKmh)) return Number.NaN;
  return (ring * (rolloutMm / 1000) * (cadenceRpm / 60)) / (speedKmh / 3.6);
}

/** Seconds after the event when the crank has turned `revs` times, counting the cadence record by record. */
function turnedAt(samples: readonly MomentSample[], revs: number): number | null {
  let turned = 0;
  for (let i = 0; i + 1 < samples.length; i++) {
    const { s, cadenceRpm } = samples[i];
    const next = samples[i + 1].s;
    if (next <= 0 || !(cadenceRpm > PEDALLING_RPM)) continue;
    const from = Math.max(0, s);
    const turns = ((next - from) * cadenceRpm) / 60;
    if (turned + turns >= revs) return from + ((revs - turned) / cadenceRpm) * 60;
    turned += turns;
  }
  return null;
}

/**
 * Cuts the moment around `timeS` out of a ride. The turns are counted from the event plus the ride's own sensor lag,
 * as the records show the wheel that much late.
 */
export function cutMoment(track: RideTrack, timeS: number, { rolloutMm, sensorLagS, crankRevs }: MomentFacts): Moment {
  const samples: MomentSample[] = [];
  const last = sampleFrom(track, timeS + afterS + 0.001);
  for (let i = sampleFrom(track, timeS - beforeS); i < last; i++) {
    const teeth = (cog: number): number => (Number.isNaN(cog) ? Number.NaN : track.cassette[cog]);
    const cadenceRpm = track.cadenceRpm.values[i];
    const speedKmh = track.speedKmh.values[i];
    samples.push({
      s: track.timeS[i] - timeS,
      askedTeeth: teeth(track.commanded.values[i]),
      chainTeeth: teeth(track.actual.values[i]),
      ratioTeeth: ratioTeeth(track.ring[i], rolloutMm ?? Number.NaN, cadenceRpm, speedKmh),
      speedKmh,
      cadenceRpm,
      powerW: track.powerW.values[i],
    });
  }
  const lag = Math.max(0, sensorLagS ?? 0);
  const shifted = (revs: number): number | null => {
    const at = turnedAt(samples, revs);
    return at === null ? null : at + lag;
  };
  return {
    cassette: track.cassette,
    samples,
    cleanUntilS: shifted(CLEAN_WITHIN_REVS),
    lateUntilS: shifted(LATE_WITHIN_REVS),
    judgedAtS: crankRevs === null ? null : shifted(crankRevs),
  };
}

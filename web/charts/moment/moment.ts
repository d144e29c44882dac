import { PEDALLING_RPM } from '../../../src/gear-trace/samples/pedalling-rpm.ts';
import type { LostSpell } from '../../../src/report/charts/lost-spells.ts';
import type { KeyedRideReport } from '../../api/answers.ts';
import { isLost } from '../timeline/lost-spells.ts';
import type { RideTrack } from '../timeline/ride-track.ts';
import { sampleFrom } from '../timeline/ride-track.ts';

/** How much of a ride is shown before an event, s. */
export const BEFORE_S = 10;
/** How much after it, s. */
export const AFTER_S = 20;

/** One record of the moment. Cogs are teeth; NaN for missing. */
export interface MomentSample {
  /** Seconds from the event. */
  readonly s: number;
  readonly askedTeeth: number;
  readonly chainTeeth: number;
  /** Whether drive was lost: then the chain is on no cog. */
  readonly lost: boolean;
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
  /** Spells without drive within the moment, s from the event. */
  readonly lost: readonly LostSpell[];
  /** Seconds from the event since which the turns are drawn: below 0 where its record was written down only after them. */
  readonly turnsFromS: number;
  /** Seconds from the event until the cranks had turned so far, as judged, also beyond the moment; null where they never did. */
  readonly cleanUntilS: number | null;
  readonly lateUntilS: number | null;
  /** Seconds from the event when the engine judged the shift to be done; null where it was not, or is not known. */
  readonly judgedAtS: number | null;
  /** The cog that it was then judged to be on, teeth; null for anything but a shift. */
  readonly judgedTeeth: number | null;
}

/** What is known of the ride and the event beside the columns. */
interface MomentFacts {
  readonly rolloutMm: number | null;
  /** When the turns of a shift were pedalled; null for anything else, and in a report that an earlier engine made. */
  readonly turns: KeyedRideReport['shifts'][number]['turns'] | null;
  readonly lost: readonly LostSpell[];
  /** The cog that a shift asked for, teeth; absent for anything else. */
  readonly toTeeth?: number;
}

/** Slower, the speed is too rough to divide by. */
const SLOWEST_KMH = 3;

/** Teeth of the cog that would give this speed at this cadence. */
function ratioTeeth(ring: number, rolloutMm: number, cadenceRpm: number, speedKmh: number): number {
  if (!(cadenceRpm > PEDALLING_RPM) || !(speedKmh > SLOWEST_KMH)) return Number.NaN;
  return (ring * (rolloutMm / 1000) * (cadenceRpm / 60)) / (speedKmh / 3.6);
}

/** Cuts the moment around `timeS` out of a ride. The turns are the engine's own count: one made here could differ from what was judged. */
export function cutMoment(track: RideTrack, timeS: number, { rolloutMm, turns, lost, toTeeth }: MomentFacts): Moment {
  const samples: MomentSample[] = [];
  const last = sampleFrom(track, timeS + AFTER_S + 0.001);
  for (let i = sampleFrom(track, timeS - BEFORE_S); i < last; i++) {
    const teeth = (cog: number): number => (Number.isNaN(cog) ? Number.NaN : track.cassette[cog]);
    const cadenceRpm = track.cadenceRpm.values[i];
    const speedKmh = track.speedKmh.values[i];
    samples.push({
      s: track.timeS[i] - timeS,
      askedTeeth: teeth(track.commanded.values[i]),
      chainTeeth: teeth(track.actual.values[i]),
      lost: isLost(lost, track.timeS[i]),
      ratioTeeth: ratioTeeth(track.ring[i], rolloutMm ?? Number.NaN, cadenceRpm, speedKmh),
      speedKmh,
      cadenceRpm,
      powerW: track.powerW.values[i],
    });
  }
  const doneS = turns?.doneS ?? null;
  return {
    cassette: track.cassette,
    samples,
    lost: lost
      .map(({ fromS, toS }) => ({ fromS: Math.max(-BEFORE_S, fromS - timeS), toS: Math.min(AFTER_S, toS - timeS) }))
      .filter(({ fromS, toS }) => fromS < toS),
    turnsFromS: Math.max(-BEFORE_S, Math.min(0, turns?.fromS ?? 0)),
    cleanUntilS: turns?.cleanUntilS ?? null,
    lateUntilS: turns?.lateUntilS ?? null,
    judgedAtS: doneS !== null && doneS <= AFTER_S ? doneS : null,
    judgedTeeth: toTeeth ?? null,
  };
}

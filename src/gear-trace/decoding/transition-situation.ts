import type { GearCommands } from '../commands/gear-commands.ts';
import type { PedallingSamples } from '../samples/pedalling-samples.ts';

/** Lengths of a step between two records that are told apart, s; each stands for those up to `STRETCH` times as long. */
export const DT_CLASSES_S = [1, 2, 3, 5, 8, 15, 60];
const STRETCH = 1.3;
/** A command is fresh from so long before its record, s, until so much pedalling after it, s. */
const FRESH_LEAD_S = 1;
const FRESH_PEDALLING_S = 8;
/** A ring that was worked out may have changed so much sooner or later, s. */
const ABOUT_S = 3;

/** What matters for one step: the commands in force, how fresh they are, whether the cranks turn, how long the step is. */
export interface Situation {
  readonly cog: number;
  readonly ring: number;
  readonly freshCog: boolean;
  readonly freshRing: boolean;
  readonly turning: boolean;
  /** Place of the step's length in `DT_CLASSES_S`. */
  readonly dtClass: number;
}

/**
 * What matters for the step that leads to record t, by t.
 *
 * @param ringAt the ring at each record (-1: not known) where something better than the gear records tells it
 */
export function situations(
  commands: GearCommands,
  timeS: Float64Array,
  samples: PedallingSamples,
  ringAt: Int8Array | null = null,
): (t: number) => Situation {
  const count = timeS.length;
  const freshCog = freshness(commands.cog, commands.timeS, timeS, samples);
  const freshRing = ringAt ? aboutChanges(ringAt, timeS) : freshness(commands.ring, commands.timeS, timeS, samples);
  const dtClass = new Uint8Array(count);
  for (let t = 0; t < count; t++) {
    const found = DT_CLASSES_S.findIndex((dt) => samples.dtS[t] <= dt * STRETCH);
    dtClass[t] = found < 0 ? DT_CLASSES_S.length - 1 : found;
  }
  return (t) => {
    const latest = commands.latest[t];
    return {
      cog: latest < 0 ? -1 : commands.cog[latest],
      ring: ringAt ? ringAt[t] : latest < 0 ? -1 : commands.ring[latest],
      freshCog: freshCog[t] === 1,
      freshRing: freshRing[t] === 1,
      turning: samples.pedalling[t] === 1 || samples.pedalling[t - 1] === 1,
      dtClass: dtClass[t],
    };
  };
}

/** 1 within some seconds of a change from one known ring to another, and between the two. */
function aboutChanges(ringAt: Int8Array, timeS: Float64Array): Uint8Array {
  const about = new Uint8Array(ringAt.length);
  let known = -1;
  for (let t = 0; t < ringAt.length; t++) {
    if (ringAt[t] < 0) continue;
    if (known >= 0 && ringAt[t] !== ringAt[known]) {
      for (let k = known; k >= 0 && timeS[known] - timeS[k] <= ABOUT_S; k--) about[k] = 1;
      for (let k = known; k < ringAt.length && timeS[k] - timeS[t] <= ABOUT_S; k++) about[k] = 1;
    }
    known = t;
  }
  return about;
}

/** 1 from a second before a change of command until 8 s have been pedalled since. */
function freshness(
  commanded: Int8Array,
  commandS: Float64Array,
  timeS: Float64Array,
  samples: PedallingSamples,
): Uint8Array {
  const fresh = new Uint8Array(timeS.length);
  let next = 0;
  let pedalledS = Number.POSITIVE_INFINITY;
  for (let t = 0; t < timeS.length; t++) {
    if (samples.pedalling[t]) pedalledS += samples.dtS[t];
    while (next < commandS.length && commandS[next] <= timeS[t] + FRESH_LEAD_S) {
      if (next > 0 && commanded[next] !== commanded[next - 1]) pedalledS = 0;
      next++;
    }
    fresh[t] = pedalledS < FRESH_PEDALLING_S ? 1 : 0;
  }
  return fresh;
}

import { forwardBackward } from '../../hmm/forward-backward.ts';
import type { BikeRide } from '../bike-ride.ts';
import type { GearModel } from '../gear-model.ts';
import { developmentUndone } from './development-undone.ts';
import { gearEmission, ratioDeviation } from './gear-emission.ts';
import { type GearStates, gearStates } from './gear-states.ts';
import { GearTransition } from './gear-transition.ts';
import { likeliestRing, recordedRing, ringUnrecorded } from './ring-by-commands.ts';
import { MOSTLY_OBEYS, type Obedience, OPEN_TO_MISSES } from './transition-chances.ts';
import { situations } from './transition-situation.ts';

/** Probability from which on a record was surely spent driving, and surely on the cog that is named. */
export const SURELY_DRIVING = 0.8;
export const SURELY_ON_COG = 0.9;
/** Probability that a ride begins with the drive lost. An assumption of ours. */
const LOST_AT_START = 1e-4;

/** The columns a decoded ride gives: see `GearTrace`. */
export interface DecodedGears {
  readonly cog: Int8Array;
  readonly ring: Int8Array;
  readonly cogProbability: Float32Array;
  readonly driving: Float32Array;
  readonly logDevelopment: Float64Array;
  readonly deviation: Float64Array;
}

/**
 * Runs the hidden Markov model over a ride and names the likeliest cog and ring at each record. Where the cog was recorded and not the ring it runs
 * twice: first for the ring, with a chain that mostly obeys, then for the cog with that ring.
 */
export function decodeGears({ log, bike, samples, commands }: BikeRide, model: GearModel): DecodedGears {
  const states = gearStates(bike.chainrings.length, bike.cassette.length);
  const logDevelopment = developmentUndone(log, samples, model);
  const deviation = ratioDeviation(log, samples, model.noise);
  const emission = gearEmission(log, model, states, { logDevelopment, deviation });
  const initial = new Float64Array(states.count).fill((1 - LOST_AT_START) / (2 * states.gears));
  initial[states.lost] = LOST_AT_START;
  const posterior = (obedience: Obedience, ringAt: Int8Array | null): Float32Array => {
    const situation = situations(commands, log.timeS, samples, ringAt);
    return forwardBackward(emission, new GearTransition(states, situation, obedience), initial).probability;
  };
  const ringAt = ringUnrecorded(commands, states)
    ? recordedRing(commands, likeliestRing(posterior(MOSTLY_OBEYS, null), states))
    : null;
  return { ...likeliestGears(posterior(OPEN_TO_MISSES, ringAt), states), logDevelopment, deviation };
}

/** The likeliest cog and ring at each record, -1 where none is likelier than not. `probability`: row-major, records x states. */
function likeliestGears(
  probability: Float32Array,
  { rings, cogs, gears, count: states, lost }: GearStates,
): Omit<DecodedGears, 'logDevelopment' | 'deviation'> {
  const count = probability.length / states;
  const cog = new Int8Array(count).fill(-1);
  const ring = new Int8Array(count).fill(-1);
  const cogProbability = new Float32Array(count);
  const driving = new Float32Array(count);
  const ofCog = new Float64Array(cogs);
  const ofRing = new Float64Array(rings);
  for (let t = 0; t < count; t++) {
    const row = t * states;
    ofCog.fill(0);
    ofRing.fill(0);
    let drivingSum = 0;
    for (let g = 0; g < gears; g++) {
      const both = probability[row + g] + probability[row + gears + g];
      ofCog[g % cogs] += both;
      ofRing[Math.floor(g / cogs)] += both;
      drivingSum += probability[row + g];
    }
    driving[t] = drivingSum;
    if (probability[row + lost] > 0.5) continue;
    const bestCog = ofCog.indexOf(Math.max(...ofCog));
    const bestRing = ofRing.indexOf(Math.max(...ofRing));
    if (ofCog[bestCog] < 0.5) continue;
    cog[t] = bestCog;
    ring[t] = ofRing[bestRing] >= 0.5 ? bestRing : -1;
    cogProbability[t] = ofCog[bestCog];
  }
  return { cog, ring, cogProbability, driving };
}

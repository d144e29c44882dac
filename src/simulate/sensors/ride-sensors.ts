import { type SeededRandom, seededRandom } from '../../numeric/seeded-random.ts';
import { type MechanicalTrack, TRACK_HZ } from '../mechanics/mechanical-track.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';
import { CrankSensor } from './crank-sensor.ts';
import { satelliteSpeed } from './satellite-speed.ts';
import { drawTroubles, type SensorTroubles, within } from './sensor-troubles.ts';
import { WheelSensor } from './wheel-sensor.ts';

/** Share of crank sensors that repeat their last reading when the legs stop. Assumption: three of the four real rides looked at have one, too few to tell the share. */
const REPEATING_SENSORS = 0.6;
/** Longest time for which they repeat it, s. */
const REPEATED_AT_MOST_S = 2.9;

const noTroubles: SensorTroubles = { crankSilent: [], wheelHalved: [], speedSilent: [] };

/**
 * The sensors of one bike in one ride. Read in order of time: first the speed of a moment, then its cadence, then its power;
 * all draw from the same random numbers. A silent sensor reads NaN.
 */
export class RideSensors {
  readonly #track: MechanicalTrack;
  readonly #options: ResolvedOptions;
  readonly #random: SeededRandom;
  readonly #troubles: SensorTroubles;
  readonly #repeats: boolean;
  readonly #crank: CrankSensor;
  readonly #wheel: WheelSensor;
  /** Satellite speed at the track's rate; null where the wheel is counted. */
  readonly #satellite: Float64Array | null;
  readonly #powerBias: number;
  #lastCadence = Number.NaN;

  constructor(track: MechanicalTrack, options: ResolvedOptions, random: SeededRandom) {
    this.#track = track;
    this.#options = options;
    this.#random = random;
    this.#troubles = options.sensorTroubles ? drawTroubles((track.samples - 1) / TRACK_HZ, random) : noTroubles;
    this.#repeats = seededRandom(options.seed, 'crank sensor').chance(REPEATING_SENSORS);
    const holdS = random.between(2, 4);
    const heldS = this.#repeats ? Math.min(holdS, REPEATED_AT_MOST_S) : holdS;
    this.#crank = new CrankSensor(track.crankEventS, heldS, random.between(0.6, 1.4), this.#repeats);
    const setRolloutM = (options.rolloutMm / 1000) * options.rolloutScale;
    this.#wheel = new WheelSensor(track.wheelEventS, setRolloutM, random.between(0.7, 1.3));
    this.#satellite =
      options.speedSource === 'satellite'
        ? satelliteSpeed(track, options.satelliteLagS, options.noiseScale, random)
        : null;
    this.#powerBias = 1 + 0.015 * random.normal();
  }

  speedMps(timeS: number): number {
    const speed = this.#satellite ? this.#satelliteMps(this.#satellite, timeS) : this.#wheelMps(timeS);
    if (within(this.#troubles.speedSilent, timeS)) return Number.NaN;
    const { speedStepMps } = this.#options;
    return Math.round(Math.max(0, speed) / speedStepMps) * speedStepMps;
  }

  #satelliteMps(satellite: Float64Array, timeS: number): number {
    return satellite[this.#sample(timeS)] * this.#noise(0.006);
  }

  #wheelMps(timeS: number): number {
    const speed = this.#wheel.readMps(timeS) * this.#noise(0.0055);
    return within(this.#troubles.wheelHalved, timeS) ? 0.5 * speed : speed;
  }

  cadenceRpm(timeS: number): number {
    const passes = this.#crank.passes;
    const rpm = this.#crank.readRpm(timeS) * this.#noise(0.003);
    const repeated = this.#repeats && rpm > 0 && this.#crank.passes === passes && this.#lastCadence > 0;
    if (this.#crankSilent(timeS) || !this.#options.cadence) this.#lastCadence = Number.NaN;
    else if (!repeated) this.#lastCadence = Math.round(rpm);
    return this.#lastCadence;
  }

  /** Mean power of the last second as a meter with a little bias shows it, whole watts. */
  powerW(timeS: number): number {
    if (this.#crankSilent(timeS) || !this.#options.power) return Number.NaN;
    const noise = this.#noise(0.03);
    const sample = this.#sample(timeS);
    const from = Math.max(0, sample - TRACK_HZ + 1);
    let sum = 0;
    for (let i = from; i <= sample; i++) sum += this.#track.powerW[i];
    const mean = sum / (sample - from + 1);
    return mean < 8 ? 0 : Math.max(0, Math.round(mean * this.#powerBias * noise));
  }

  #crankSilent(timeS: number): boolean {
    return within(this.#troubles.crankSilent, timeS);
  }

  #sample(timeS: number): number {
    return Math.min(this.#track.samples - 1, Math.round(timeS * TRACK_HZ));
  }

  /** A factor about 1 that scatters by `spread`. */
  #noise(spread: number): number {
    return 1 + spread * this.#options.noiseScale * this.#random.normal();
  }
}

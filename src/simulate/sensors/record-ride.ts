import { seededRandom } from '../../numeric/seeded-random.ts';
import { type MechanicalTrack, trackHz } from '../mechanics/mechanical-track.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';
import { CrankSensor } from './crank-sensor.ts';
import { recordGears } from './gear-recorder.ts';
import type { RecordedRide } from './recorded-ride.ts';
import { recordingTimes } from './recording-times.ts';
import { satelliteSpeed } from './satellite-speed.ts';
import { drawTroubles, within } from './sensor-troubles.ts';
import { WheelSensor } from './wheel-sensor.ts';

/** Share of crank sensors that repeat their last reading when the legs stop, and for how long: three of four in the real rides looked at. */
const REPEATING_SENSORS = 0.6;
const REPEATED_AT_MOST_S = 2.9;

/** What the sensors and the recorder make of a ride. */
export function recordRide(
  track: MechanicalTrack,
  options: ResolvedOptions,
  ride: number,
  startMs: number,
): RecordedRide {
  const random = seededRandom(options.seed, 'sensors', ride);
  const durationS = (track.samples - 1) / trackHz;
  const troubles = options.sensorTroubles
    ? drawTroubles(durationS, random)
    : { crankSilent: [], wheelHalved: [], speedSilent: [] };
  const repeats = seededRandom(options.seed, 'crank sensor').chance(REPEATING_SENSORS);
  const holdS = random.between(2, 4);
  const crank = new CrankSensor(
    track.crankEventS,
    repeats ? Math.min(holdS, REPEATED_AT_MOST_S) : holdS,
    random.between(0.6, 1.4),
    repeats,
  );
  const setRolloutM = (options.rolloutMm / 1000) * options.rolloutScale;
  const wheel = new WheelSensor(track.wheelEventS, setRolloutM, random.between(0.7, 1.3));
  const satellite =
    options.speedSource === 'satellite'
      ? satelliteSpeed(track, options.satelliteLagS, options.noiseScale, random)
      : null;
  const powerBias = 1 + 0.015 * random.normal();
  const seconds = Math.floor(durationS) + 1;
  const speed = new Float64Array(seconds);
  const cadence = new Float64Array(seconds);
  const power = new Float64Array(seconds);
  for (let s = 0; s < seconds; s++) {
    const readAtS = Math.max(0, s - options.recorderLagS);
    const sample = Math.min(track.samples - 1, Math.round(readAtS * trackHz));
    let speedNow = satellite
      ? satellite[sample]
      : wheel.readMps(readAtS) * (1 + 0.0055 * options.noiseScale * random.normal());
    if (satellite) speedNow *= 1 + 0.006 * options.noiseScale * random.normal();
    else if (within(troubles.wheelHalved, readAtS)) speedNow *= 0.5;
    const passes = crank.passes;
    const rpm = crank.readRpm(readAtS) * (1 + 0.003 * options.noiseScale * random.normal());
    const crankSilent = within(troubles.crankSilent, readAtS);
    speed[s] = within(troubles.speedSilent, readAtS)
      ? Number.NaN
      : Math.round(Math.max(0, speedNow) / options.speedStepMps) * options.speedStepMps;
    const repeated = repeats && s > 0 && rpm > 0 && crank.passes === passes && cadence[s - 1] > 0;
    cadence[s] = crankSilent || !options.cadence ? Number.NaN : repeated ? cadence[s - 1] : Math.round(rpm);
    power[s] =
      crankSilent || !options.power
        ? Number.NaN
        : readPower(track, sample, powerBias, options.noiseScale * random.normal());
  }
  const kept = recordingTimes(track, options, speed, cadence, random);
  const pick = (column: Float64Array): Float64Array => Float64Array.from(kept, (s) => column[s]);
  const { records, commandRecordedS } = recordGears(track, options, random);
  return {
    log: {
      file: `ride-${ride + 1}`,
      format: 'fit',
      sport: 'cycling',
      startMs,
      timeS: kept,
      speedMps: pick(speed),
      cadenceRpm: pick(cadence),
      powerW: pick(power),
      distanceM: pick(distanceOf(speed)),
      speedSource: options.speedSource,
      gearRecords: records,
      warnings: [],
    },
    commandRecordedS,
  };
}

/** Mean power of the last second as a meter with a little bias shows it, whole watts. */
function readPower(track: MechanicalTrack, sample: number, bias: number, noise: number): number {
  let sum = 0;
  const from = Math.max(0, sample - trackHz + 1);
  for (let i = from; i <= sample; i++) sum += track.powerW[i];
  const mean = sum / (sample - from + 1);
  return mean < 8 ? 0 : Math.max(0, Math.round(mean * bias * (1 + 0.03 * noise)));
}

/** Distance as a device counts it: the sum of the speeds it knew. */
function distanceOf(speed: Float64Array): Float64Array {
  let sum = 0;
  return speed.map((v) => {
    sum += Number.isNaN(v) ? 0 : v;
    return sum;
  });
}

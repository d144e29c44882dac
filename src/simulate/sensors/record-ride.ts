import { seededRandom } from '../../numeric/seeded-random.ts';
import { type MechanicalTrack, TRACK_HZ } from '../mechanics/mechanical-track.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';
import { recordGears } from './gear-recorder.ts';
import type { RecordedRide } from './recorded-ride.ts';
import { recordingTimes } from './recording-times.ts';
import { RideSensors } from './ride-sensors.ts';

/** What the sensors and the recorder make of a ride. */
export function recordRide(
  track: MechanicalTrack,
  options: ResolvedOptions,
  ride: number,
  startMs: number,
): RecordedRide {
  const random = seededRandom(options.seed, 'sensors', ride);
  const { speed, cadence, power } = readEverySecond(
    new RideSensors(track, options, random),
    Math.floor((track.samples - 1) / TRACK_HZ) + 1,
    options.recorderLagS,
  );
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

/** Columns over the ride's seconds, each read `lagS` before it is written. */
function readEverySecond(
  sensors: RideSensors,
  seconds: number,
  lagS: number,
): Record<'speed' | 'cadence' | 'power', Float64Array> {
  const speed = new Float64Array(seconds);
  const cadence = new Float64Array(seconds);
  const power = new Float64Array(seconds);
  for (let s = 0; s < seconds; s++) {
    const readAtS = Math.max(0, s - lagS);
    speed[s] = sensors.speedMps(readAtS);
    cadence[s] = sensors.cadenceRpm(readAtS);
    power[s] = sensors.powerW(readAtS);
  }
  return { speed, cadence, power };
}

/** Distance as a device counts it: the sum of the speeds it knew. */
function distanceOf(speed: Float64Array): Float64Array {
  let sum = 0;
  return speed.map((v) => {
    sum += Number.isNaN(v) ? 0 : v;
    return sum;
  });
}

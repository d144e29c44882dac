import type { SpeedSource } from '../ride-log.ts';
import type { FitMessage } from './fit-messages.ts';

/** Speed sensors by name, and by number where the message does not say which radio network it speaks of (the profile's own device numbers). */
const SPEED_SENSORS = new Set<unknown>(['bike_speed', 'bike_speed_cadence', 123, 121]);
/** Speed without a position for this many records speaks for a wheel sensor: satellite speed comes with positions. */
const ENOUGH_WITHOUT_POSITION = 60;

/** Finds out where the speed of a FIT file comes from. Tell it of all messages, then ask. */
export class FitSpeedSource {
  #speedSensor = false;
  #satelliteReceiver = false;
  #movingWithPosition = 0;
  #movingWithoutPosition = 0;

  device({ device_type }: FitMessage): void {
    if (SPEED_SENSORS.has(device_type)) this.#speedSensor = true;
    if (device_type === 'gps') this.#satelliteReceiver = true;
  }

  record(speedMps: number, hasPosition: boolean): void {
    if (!(speedMps > 1)) return;
    if (hasPosition) this.#movingWithPosition++;
    else this.#movingWithoutPosition++;
  }

  /**
   * `wheel`: a speed sensor is listed, or speed goes on where positions stop, or the ride is indoors. `satellite`: a satellite
   * receiver is listed and no speed sensor. Else `unknown`: a file may list no devices, or have had its positions taken out.
   */
  source(indoor: boolean): SpeedSource {
    if (this.#speedSensor || indoor) return 'wheel';
    if (this.#movingWithPosition > 0 && this.#movingWithoutPosition >= ENOUGH_WITHOUT_POSITION) return 'wheel';
    return this.#satelliteReceiver ? 'satellite' : 'unknown';
  }
}

import { centralAngle, isPosition } from '../../src/ride-log/path-length.ts';

/**
 * What is left of the positions of a ride's records when they are taken out. As little as gives the same gears:
 *
 * - `none`: nothing
 * - `presence`: that there was a position, always 0 N 0 E. Which records have one tells a wheel sensor's speed from a
 *   satellite receiver's.
 * - `distances`: the steps from one position to the next, laid out along the equator around 0 N 0 E. Only where no
 *   speed and no distance was recorded, so that speed must come from the positions. Place and direction are gone; what
 *   is left is what a speed column holds as well.
 */
export type PositionTrace = 'none' | 'presence' | 'distances';

/** A file without its positions, and in how many records it had some. */
export interface PlacelessFile {
  readonly bytes: Uint8Array;
  readonly found: number;
}

/** From the least to the most. */
export const positionTraces: readonly PositionTrace[] = ['none', 'presence', 'distances'];

const DEGREES_PER_RADIAN = 180 / Math.PI;

/** Lays positions out along the equator: equal steps, no place. */
export class EquatorLine {
  #lat = Number.NaN;
  #lon = Number.NaN;
  #longitude = 0;

  /** Longitude that stands for this position (latitude 0); null for one that is missing or impossible. */
  next(lat: number, lon: number): number | null {
    if (!isPosition(lat, lon)) return null;
    if (!Number.isNaN(this.#lat)) {
      const step = centralAngle(this.#lat, this.#lon, lat, lon) * DEGREES_PER_RADIAN;
      // Either way along the line is as far; turn round before the line ends.
      this.#longitude += this.#longitude + step <= 180 ? step : -step;
    }
    this.#lat = lat;
    this.#lon = lon;
    return this.#longitude;
  }
}

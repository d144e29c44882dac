/** Mean radius of the earth, m (IUGG). */
const EARTH_RADIUS_M = 6_371_008.8;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Angle at the centre of a sphere between two positions in degrees, radians, by the haversine formula. NaN where a position is missing. */
export function centralAngle(latA: number, lonA: number, latB: number, lonB: number): number {
  const a =
    Math.sin(radians(latB - latA) / 2) ** 2 +
    Math.cos(radians(latA)) * Math.cos(radians(latB)) * Math.sin(radians(lonB - lonA) / 2) ** 2;
  return 2 * Math.asin(Math.min(1, Math.sqrt(a)));
}

/** Distance between two positions on the earth, m. NaN where a position is missing. */
export function greatCircleM(latA: number, lonA: number, latB: number, lonB: number): number {
  return EARTH_RADIUS_M * centralAngle(latA, lonA, latB, lonB);
}

/** Whether a pair of numbers can be a latitude and a longitude, degrees; false for NaN. */
export const isPosition = (lat: number, lon: number): boolean => Math.abs(lat) <= 90 && Math.abs(lon) <= 180;

/** Sums up the path through positions, so that nothing but its length need be kept. */
export class PathLength {
  #lat = NaN;
  #lon = NaN;
  #sumM = 0;

  /** Length of the path up to this position, m; NaN where the position is missing or impossible. */
  to(lat: number, lon: number): number {
    if (!isPosition(lat, lon)) return NaN;
    if (!Number.isNaN(this.#lat)) this.#sumM += greatCircleM(this.#lat, this.#lon, lat, lon);
    this.#lat = lat;
    this.#lon = lon;
    return this.#sumM;
  }
}

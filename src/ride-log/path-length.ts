/** Mean radius of the earth, m (IUGG). */
const EARTH_RADIUS_M = 6_371_008.8;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Distance between two positions on a sphere, m, by the haversine formula. NaN where a position is missing. */
export function greatCircleM(latA: number, lonA: number, latB: number, lonB: number): number {
  const a =
    Math.sin(radians(latB - latA) / 2) ** 2 +
    Math.cos(radians(latA)) * Math.cos(radians(latB)) * Math.sin(radians(lonB - lonA) / 2) ** 2;
  return 2 * EARTH_RADIUS_M * Math.asin(Math.min(1, Math.sqrt(a)));
}

/** Sums up the path through positions, so that nothing but its length need be kept. */
export class PathLength {
  #lat = NaN;
  #lon = NaN;
  #sumM = 0;

  /** Length of the path up to this position, m; NaN where the position is missing or impossible. */
  to(lat: number, lon: number): number {
    if (!(Math.abs(lat) <= 90 && Math.abs(lon) <= 180)) return NaN;
    if (!Number.isNaN(this.#lat)) this.#sumM += greatCircleM(this.#lat, this.#lon, lat, lon);
    this.#lat = lat;
    this.#lon = lon;
    return this.#sumM;
  }
}

/** Rise of an M5 coarse thread in one turn, mm (ISO metric coarse series). That barrel adjusters are M5 is common
 * practice in the trade, no source; M6 (1.0 mm) occurs. */
const BARREL_THREAD_MM = 0.8;

/**
 * Sideways travel of the guide pulley, mm: cable pull x shift ratio. For one step of the shifter it equals the cog
 * pitch within 0.08 mm in every published pairing (tests/checks/indexing.json).
 *
 * @example guideTravelMm(2.5, 1.5) // 3.75
 */
export function guideTravelMm(cablePullMm: number, shiftRatio: number): number {
  return cablePullMm * shiftRatio;
}

/**
 * Sideways travel of the guide pulley for turns of the barrel adjuster, mm; anticlockwise (positive) pulls it inboard.
 *
 * @example barrelTravelMm(0.25, 1.72) // 0.344
 */
export function barrelTravelMm(turns: number, shiftRatio: number): number {
  return guideTravelMm(turns * BARREL_THREAD_MM, shiftRatio);
}

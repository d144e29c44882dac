/** Too few moving records to compare say nothing. */
const ENOUGH = 60;
const MOVING_MPS = 2;
const KMH_PER_MPS = 3.6;
/** How close to 3.6 the median ratio must come. */
const TOLERANCE = 0.3;

/**
 * Whether `recorded` speed is in km/h though its field means m/s: its median ratio to the speed derived from distance or positions
 * is 3.6. Some writers of extensions do so. False where there is too little to compare.
 */
export function isInKmh(recorded: Float64Array, derivedMps: Float64Array): boolean {
  const ratios = recorded
    .map((speed, i) => speed / derivedMps[i])
    .filter((_, i) => recorded[i] > 0 && derivedMps[i] > MOVING_MPS);
  if (ratios.length < ENOUGH) return false;
  const median = ratios.sort()[ratios.length >> 1];
  return Math.abs(median - KMH_PER_MPS) < TOLERANCE;
}

/** Turns km/h into m/s, in place. */
export function kmhToMps(speed: Float64Array): void {
  for (let i = 0; i < speed.length; i++) speed[i] /= KMH_PER_MPS;
}

/** Neighbours further apart than this are not bridged, unless the log is sparser still. */
const LEAST_BRIDGE_S = 10;
/** In a sparse log, breaks up to this many usual steps are bridged. */
const BRIDGED_STEPS = 3;

/**
 * Speed from distance: the way between the record before and the record after, over the time between them, so that
 * speed is not late. At the edge of a gap the record itself takes the missing neighbour's place. NaN where distance is
 * missing or nothing is near enough.
 *
 * @param timeS strictly rising
 */
export function speedFromDistance(timeS: Float64Array, distanceM: Float64Array): Float64Array {
  const speedMps = new Float64Array(timeS.length).fill(NaN);
  const known = Uint32Array.from(timeS.keys()).filter((i) => !Number.isNaN(distanceM[i]));
  const bridgeS = Math.max(LEAST_BRIDGE_S, BRIDGED_STEPS * usualStep(timeS, known));
  for (let k = 0; k < known.length; k++) {
    const i = known[k];
    const before = k > 0 && timeS[i] - timeS[known[k - 1]] <= bridgeS ? known[k - 1] : i;
    const after = k + 1 < known.length && timeS[known[k + 1]] - timeS[i] <= bridgeS ? known[k + 1] : i;
    if (before === after) continue;
    speedMps[i] = (distanceM[after] - distanceM[before]) / (timeS[after] - timeS[before]);
  }
  return speedMps;
}

/** Median step between the records `known`; 0 for fewer than two. */
function usualStep(timeS: Float64Array, known: Uint32Array): number {
  const steps = Float64Array.from(
    { length: Math.max(0, known.length - 1) },
    (_, k) => timeS[known[k + 1]] - timeS[known[k]],
  );
  return steps.length === 0 ? 0 : steps.sort()[steps.length >> 1];
}

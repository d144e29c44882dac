import { longestRising } from './longest-rising.ts';

/**
 * Joins the distances of a ride's runs into one that never falls, and returns how many values were set aside.
 * A run that begins below where the last one ended counts from its end on; within a run, values out of step with the
 * longest rising sequence become NaN, as do negative ones. Changes `distanceM` in place.
 *
 * @param starts indices of the first record of each run, rising from 0
 */
export function joinDistances(distanceM: Float64Array, starts: readonly number[]): number {
  let setAside = 0;
  let joined = 0;
  starts.forEach((start, k) => {
    const run = distanceM.subarray(start, starts[k + 1] ?? distanceM.length);
    const known = Uint32Array.from(run.keys()).filter((i) => !Number.isNaN(run[i]));
    const kept = longestRising(
      run,
      known.filter((i) => run[i] >= 0),
    );
    setAside += known.length - kept.length;
    if (kept.length === 0) {
      run.fill(NaN);
      return;
    }
    const offset = run[kept[0]] < joined ? joined : 0;
    let next = 0;
    for (let i = 0; i < run.length; i++) {
      if (next < kept.length && kept[next] === i) {
        run[i] += offset;
        next++;
      } else run[i] = NaN;
    }
    joined = run[kept[kept.length - 1]];
  });
  return setAside;
}

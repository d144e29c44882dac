const PHASES = 20;
/** Of few times one may stray, of many a tenth. */
const STRAY_SHARE = 0.1;

/**
 * Whether times lie on a grid of one second, whatever its phase: a recorder that writes once a second may do so at 0.3 s. A
 * few that stray do not count, since one odd stamp tells nothing of the others. True for none and for one.
 *
 * @param timesMs in any order
 * @example inWholeSeconds([300, 1300, 4300, 7310]) // true
 */
export function inWholeSeconds(timesMs: readonly number[]): boolean {
  const bins = new Uint32Array(PHASES);
  for (const timeMs of timesMs) bins[Math.floor((((timeMs % 1000) + 1000) % 1000) / (1000 / PHASES))]++;
  // two bins together, so that times about the edge of one count as one phase
  const most = Math.max(...bins.map((count, i) => count + bins[(i + 1) % PHASES]));
  const strays = timesMs.length - most;
  return strays === 0 || (strays <= Math.max(1, STRAY_SHARE * timesMs.length) && 3 * strays < timesMs.length);
}

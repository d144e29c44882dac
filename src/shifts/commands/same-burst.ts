/** Exact commands less than this apart are one shift. */
const BURST_S = 1.2;
/** So are commands at most this far apart where the records carry whole seconds. */
const BURST_WHOLE_SECONDS_S = 1;

/**
 * The contract's rule for commands that are one shift. Counted in whole milliseconds: times that begin at a fraction of a second may lie
 * a rounding more or less apart than they were written.
 */
export function sameBurst(gapS: number, wholeSeconds: boolean): boolean {
  const gapMs = Math.round(gapS * 1000);
  return wholeSeconds ? gapMs <= BURST_WHOLE_SECONDS_S * 1000 : gapMs < BURST_S * 1000;
}

import { signedMm } from './number-words.ts';

/**
 * Where the guide pulley stands but for tilt and friction, for the chart that shows its whole error on each cog. The two differ where
 * a hanger is bent or the derailleur sticks, so neither stands for the other. Its interval is over all causes as far as they are likely; that
 * of the turns (`turnWords`) holds if it is the indexing.
 *
 * @param offsetMm offset at the middle of the cassette, inboard positive, with its 95 % interval
 */
export function lateralSentence({ mean, low, high }: { mean: number; low: number; high: number }): string {
  const basis = 'Worked out from how shifts went, not measured.';
  if (signedMm(low) === signedMm(0) && signedMm(high) === signedMm(0))
    return `The indexing seems right; what else moves the guide pulley shows on each cog. ${basis}`;
  const side = low > 0 ? 'too far inboard' : high < 0 ? 'too far outboard' : 'not clearly to either side';
  return `At the middle of the cassette, whatever the cause may be and friction left out, the guide pulley stands ${side}: ${signedMm(mean)}, between ${signedMm(low)} and ${signedMm(high)} (95 %; plus is inboard, towards the spokes). On each cog a bent hanger and friction add to it. ${basis}`;
}

import type { Adjustment } from '../../adjustments/adjustment.ts';

/** What else skips, once the chain measures well or is new, or the cogs look well or are. Common practice in the trade, no source. */
const COGS = 'Look at the most used cogs for hooked or worn teeth, and for a stiff link in the chain.';
const CHAIN = 'Measure the chain with a chain checker, and look for a stiff link.';
const BEYOND_CHAIN_AND_COGS = 'Look whether the freehub slips, and for a stiff link in the chain.';

/** What is looked at for a skipping chain, beyond the parts that were found right or replaced. */
export function lookBeyond(seenTo: readonly Adjustment['parameter'][]): string {
  if (!seenTo.includes('cassette')) return COGS;
  return seenTo.includes('chain') ? BEYOND_CHAIN_AND_COGS : CHAIN;
}

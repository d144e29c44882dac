import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';

/** Firm pedalling has to tell this much more than soft to be asked for: shifting under load wears and may slip. */
export const FIRM_MUST_TELL = 1.3;

/**
 * On which cogs a rider may be asked for shifts: on no end cog at risk, on no end cog while pressing firmly, and not even on the neighbour
 * of one at risk then: it is one push away from losing the chain. Both cogs of a shift have to be safe.
 *
 * @param atRisk ends past which the chain may be lost
 */
export function safeShifts(
  cogCount: number,
  atRisk: ReadonlySet<CassetteEnd>,
): (cog: number, firm: boolean) => boolean {
  const last = cogCount - 1;
  return (cog, firm) => {
    const margin = firm ? 1 : 0;
    const nearSmallest = cog <= margin && atRisk.has('past-smallest');
    const nearLargest = cog >= last - margin && atRisk.has('past-largest');
    return !((cog === 0 || cog === last) && firm) && !nearSmallest && !nearLargest;
  };
}

import type { AdjustmentComparison } from '../../adjustments/compare-adjustments.ts';
import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';

/**
 * Said before a limit screw that seems to have let the chain past is turned. A hanger bent inboard lets it past the largest cog just as a loose limit
 * does, and the screw would only hide the bend: there a look will not do, least of all where nobody is known to have turned that screw.
 */
export function hangerFirst(end: CassetteEnd, lowLimitTurned: boolean): string {
  if (end === 'past-smallest') return 'Look whether the hanger is bent;';
  return `Have the hanger gauged, above all if the bike fell${lowLimitTurned ? '' : ' or nobody touched the limit'};`;
}

/** Whether the low limit screw is logged as turned. */
export const lowLimitWasTurned = ({
  comparisons,
}: {
  readonly comparisons: readonly Pick<AdjustmentComparison, 'parameter'>[];
}): boolean => comparisons.some(({ parameter }) => parameter === 'low-limit');

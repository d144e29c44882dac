import { DECIDED_AT, isDecided } from '../../adjustments/compare-rates.ts';
import { chance } from '../../numeric/percent.ts';

/**
 * How sure a change for the better is; where it is decided that it was one for the worse, how sure that is.
 *
 * @example howSurely(0.98) // 'better with a probability of 98 %'
 * @example howSurely(0.01) // 'worse with a probability of 99 %'
 */
export const howSurely = (probabilityBetter: number, better = 'better', worse = 'worse'): string =>
  probabilityBetter <= 1 - DECIDED_AT
    ? `${worse} with a probability of ${chance(1 - probabilityBetter)}`
    : `${better} with a probability of ${chance(probabilityBetter)}`;

/** Which of three things is said: where it is decided that it got better, where that it got worse, and while neither is. */
export const asDecided = (probabilityBetter: number, better: string, worse: string, open: string): string =>
  isDecided(probabilityBetter) ? (probabilityBetter >= DECIDED_AT ? better : worse) : open;

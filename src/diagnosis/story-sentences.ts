import type { Adjustment } from '../adjustments/adjustment.ts';
import type { AdjustmentComparison } from '../adjustments/compare-adjustments.ts';
import { decidedAt } from '../adjustments/compare-rates.ts';
import { amountWords } from '../adjustments/parameter-words.ts';
import { figure } from '../numeric/figure.ts';
import { chance } from '../numeric/percent.ts';
import type { Cause } from './causes.ts';
import type { Onset } from './diagnosis.ts';

/** The adjustments that touch a cause: what they changed and what they did not speaks for or against it. */
const touching: Readonly<Record<Cause, readonly Adjustment['parameter'][]>> = {
  'no-fault': [],
  'cable-tension-low': ['cable-tension', 'index-offset', 'cable-and-housing'],
  'cable-tension-high': ['cable-tension', 'index-offset', 'cable-and-housing'],
  'low-limit-tight': ['low-limit'],
  'low-limit-loose': ['low-limit'],
  'high-limit-tight': ['high-limit'],
  'high-limit-loose': ['high-limit'],
  'pulley-gap-small': ['pulley-gap'],
  'pulley-gap-large': ['pulley-gap'],
  'hanger-bent': ['hanger', 'cable-tension', 'index-offset'],
  'cable-friction': ['cable-and-housing'],
  'worn-drivetrain': ['chain', 'cassette', 'wheel'],
};

const trouble = (period: AdjustmentComparison['before']): string =>
  `${figure(period.late + period.missed + period.overshot)} of ${figure(period.shifts)}`;

function wentWrong({ before, after }: AdjustmentComparison): string {
  if (before.shifts === 0) return `no shift was judged before, ${trouble(after)} went wrong after`;
  return `${trouble(before)} shifts went wrong before, ${after.shifts === 0 ? 'none was judged' : trouble(after)} after`;
}

/** What the adjustments that touch a cause did: shifts gone wrong before and after. */
export function adjustmentSentences(cause: Cause, comparisons: readonly AdjustmentComparison[]): string[] {
  return comparisons
    .filter(({ parameter, before, after }) => touching[cause].includes(parameter) && before.shifts + after.shifts > 0)
    .map((one) => {
      const verdict =
        one.probabilityBetter >= decidedAt
          ? ': it helped'
          : one.probabilityBetter <= 1 - decidedAt
            ? ': it made shifting worse'
            : '';
      const shared = one.sharedPeriod ? ' (together with another adjustment)' : '';
      return `${one.at.slice(0, 10)}, ${amountWords(one)}${shared}: ${wentWrong(one)}${verdict}.`;
    });
}

/** How the likeliest fault began. */
export function onsetSentence(onset: Onset): string[] {
  const sure = chance(onset.probability);
  if (onset.kind === 'sudden' && onset.at)
    return [`It began suddenly, about ${onset.at.slice(0, 16).replace('T', ' ')} UTC (${sure}).`];
  if (onset.kind === 'gradual') return [`It grew over the rides (${sure}).`];
  if (onset.kind === 'steady') return [`It was there from the first ride on (${sure}).`];
  return [];
}

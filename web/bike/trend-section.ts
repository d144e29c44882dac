import { turnsAnything } from '../../src/adjustments/doubtful-adjustment.ts';
import { cameBackWords } from '../../src/adjustments/hidden-words.ts';
import { adjustmentWords } from '../../src/adjustments/parameter-words.ts';
import { counted } from '../../src/numeric/counted.ts';
import { percent } from '../../src/numeric/percent.ts';
import { rideTrendPlan } from '../charts/ride-trend.ts';
import { day, inOwnZone } from '../words/dates.ts';
import { fileStem } from '../words/file-stem.ts';
import type { BikePage } from './bike-page.ts';
import { chartSection } from './chart-section.ts';

/** Trouble that was away for a while after an adjustment, which the first and last ride hide; to append. */
const returns = (report: BikePage['bike']['report']): string =>
  (report?.adjustments ?? [])
    .flatMap(({ at, cameBack }) =>
      cameBack ? [` After what was done on ${day(at)}, ${inOwnZone(cameBackWords(cameBack), [])}.`] : [],
    )
    .filter((said, i, all) => all.indexOf(said) === i)
    .join('');

/** The trend over rides; null before there are two rides with judged shifts. */
export function trendSection({ bike }: BikePage): HTMLElement | null {
  const rated = bike.trend.flatMap(({ troubleRate }) => (troubleRate === null ? [] : [troubleRate]));
  if (rated.length < 2) return null;
  const plan = rideTrendPlan({
    points: bike.trend,
    adjustments: bike.adjustmentsLog
      .filter(turnsAnything)
      .map((made) => ({ at: made.at, words: adjustmentWords(made) })),
    summary: `${counted(rated.length, 'ride')} with judged shifts: ${percent(rated[0])} trouble in the first, ${percent(rated[rated.length - 1])} in the last.${returns(bike.report)}`,
    fileName: fileStem(bike.bike.name, 'trouble by ride'),
  });
  return chartSection('trend', 'Over its rides', plan);
}

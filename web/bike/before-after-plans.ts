import { adjustmentWords } from '../../src/adjustments/parameter-words.ts';
import { anySkips } from '../../src/report/words/skip-sentences.ts';
import type { AdjustmentReport } from '../api/answers.ts';
import { beforeAfterByCogPlan } from '../charts/before-after-by-cog.ts';
import type { ChartPlan } from '../charts/chart-plan.ts';
import { skipsBeforeAfterPlan } from '../charts/skips-before-after.ts';
import { shortDay } from '../words/dates.ts';
import { fileStem } from '../words/file-stem.ts';

/** The skips by cog before and after a new chain or cassette; null where none were seen, or nothing was ridden on one side. */
function skipsOf({
  skipping,
}: AdjustmentReport): NonNullable<NonNullable<AdjustmentReport['skipping']>['cogs']> | null {
  if (!skipping?.cogs || skipping.before.hours === 0 || skipping.after.hours === 0) return null;
  const { before, after } = skipping.cogs;
  return anySkips([...before, ...after]) ? skipping.cogs : null;
}

/** What can be drawn of one adjustment, by cog: shifts before and after it, and of a new chain or cassette first the skips. */
export function beforeAfterPlans(made: AdjustmentReport, bikeName: string, isJudged: boolean): ChartPlan[] {
  const skips = skipsOf(made);
  const stem = (what: string): string => fileStem(bikeName, what, `before and after ${shortDay(made.at)}`);
  const rows = (when: 'before' | 'after') =>
    made.cogs.map(({ teeth, direction, [when]: period }) => ({ teeth, direction, ...period }));
  return [
    ...(skips
      ? [skipsBeforeAfterPlan({ fileName: stem('skips by cog'), replaced: adjustmentWords(made), skips })]
      : []),
    ...(isJudged
      ? [
          beforeAfterByCogPlan({
            title: `Before and after: ${adjustmentWords(made)}`,
            fileName: stem('trouble by cog'),
            before: rows('before'),
            after: rows('after'),
          }),
        ]
      : []),
  ];
}

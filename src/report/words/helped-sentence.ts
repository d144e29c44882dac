import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import { wentWrong } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import { helpedForSure } from '../../adjustments/helped-for-sure.ts';
import { goesAgainst, touchesCause } from '../../diagnosis/now/goes-against.ts';
import { whatWasDone } from '../../diagnosis/now/what-was-done.ts';
import { figure } from '../../numeric/figure.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { AdjustmentReport, PeriodReport } from '../adjustment-report-schema.ts';
import { standingAdjustments } from '../standing-adjustments.ts';
import type { SpokenOf } from './spoken-of.ts';

/**
 * Where no fault is named now: what made shifting better for sure, which mended something whatever that was; empty where nothing did, where something
 * made it worse since, and where it was turned towards the likeliest fault of its part.
 */
export function helpedSentence({
  adjustments,
  diagnosis: { causes },
}: Pick<SpokenOf, 'adjustments' | 'diagnosis'>): string {
  const made = standingAdjustments({ adjustments });
  const helped = made.findLast(helpedForSure);
  if (!helped) return '';
  const touched = causes.find(({ cause }) => touchesCause(cause, helped));
  const worseSince = made
    .slice(made.indexOf(helped) + 1)
    .some(({ probabilityBetter }) => probabilityBetter <= 1 - DECIDED_AT);
  if (worseSince || !touched || !goesAgainst(touched.cause, helped)) return '';
  const counts = helped.skipping ? '' : `: ${wrongBeforeAndSince(helped)}`;
  return `${upperFirst(whatWasDone(made, helped))} helped${counts}. `;
}

/** The same where a fault is named that what helped does not touch: that was another fault, and is not what is wrong now. Empty where it touches it. */
export function helpedAnother(report: Pick<SpokenOf, 'adjustments' | 'diagnosis'>): string {
  const helped = standingAdjustments(report).findLast(helpedForSure);
  return helped && !touchesCause(report.diagnosis.causes[0].cause, helped) ? helpedSentence(report) : '';
}

/**
 * How many shifts went wrong before an entry and since, with the turns the same way before it, by what it is judged by: for a limit screw its end cog.
 *
 * @example '7 of 42 shifts onto the largest cog went wrong before, 0 of 29 since'
 */
export function wrongBeforeAndSince(made: AdjustmentReport): string {
  const { before, after, endCog } = made.together ?? made;
  const [was, is] = endCog ? [wrongOnto(endCog.before), wrongOnto(endCog.after)] : [wrongOf(before), wrongOf(after)];
  return `${was} shifts${endCog ? ` onto the ${endWords[endCog.end]} cog` : ''} went wrong before, ${is} since`;
}

const of = (trouble: number, shifts: number): string => `${figure(trouble)} of ${figure(shifts)}`;
const wrongOf = ({ late, missed, overshot, shifts }: PeriodReport): string => of(late + missed + overshot, shifts);
const wrongOnto = (count: Parameters<typeof wentWrong>[0] & { readonly shifts: number }): string =>
  of(wentWrong(count), count.shifts);

import { adjustmentWords } from '../../adjustments/parameter-words.ts';
import type { Report } from '../report-schema.ts';
import { adjustmentVerdict } from '../words/adjustment-verdict.ts';
import { utcDayAndTime } from '../words/moment-words.ts';
import type { TextPage } from './text-page.ts';

/** Whether each adjustment helped. Nothing where none was logged. */
export function textAdjustments(page: TextPage, report: Report): void {
  if (report.adjustments.length === 0) return;
  page.heading('Did the adjustments help?');
  for (const adjustment of report.adjustments)
    page.bullet(`${utcDayAndTime(adjustment.at)}  ${adjustmentWords(adjustment)}. ${adjustmentVerdict(adjustment)}`);
}

import type { Report } from '../report-schema.ts';
import { adjustmentEntries } from '../words/adjustment-entries.ts';
import type { TextPage } from './text-page.ts';

/** Whether each adjustment helped. Nothing where none was logged. */
export function textAdjustments(page: TextPage, report: Report): void {
  if (report.adjustments.length === 0) return;
  page.heading('Did the adjustments help?');
  for (const entry of adjustmentEntries(report.adjustments)) page.bullet(entry);
}

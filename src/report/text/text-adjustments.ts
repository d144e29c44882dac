import type { Report } from '../report-schema.ts';
import { adjustmentEntries } from '../words/adjustment-entries.ts';
import { LOOKED_AT, lookEntries } from '../words/look-entries.ts';
import type { TextPage } from './text-page.ts';

/** Whether each adjustment helped, and what was only looked at. Nothing where none was logged. */
export function textAdjustments(page: TextPage, { adjustments, looks = [] }: Report): void {
  if (adjustments.length > 0) page.heading('Did the adjustments help?');
  for (const entry of adjustmentEntries(adjustments)) page.bullet(entry);
  if (looks.length > 0) page.heading(LOOKED_AT);
  for (const entry of lookEntries(looks)) page.bullet(entry);
}

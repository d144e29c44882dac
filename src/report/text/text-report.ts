import { counted } from '../../numeric/counted.ts';
import type { Report } from '../report-schema.ts';
import { bikeWords } from '../words/bike-words.ts';
import { limitWords } from '../words/limit-words.ts';
import { ridesAnalysed } from '../words/rides-analysed.ts';
import { textAdjustments } from './text-adjustments.ts';
import { textCogs } from './text-cogs.ts';
import { type TextOptions, TextPage } from './text-page.ts';
import { textRides } from './text-rides.ts';
import { textNextStep, textVerdict } from './text-verdict.ts';

/** The report for reading in a terminal, in the order of the page: wrapped, tables aligned, colour only if asked for and never needed. */
export function textReport(report: Report, options: TextOptions = {}): string {
  const page = new TextPage(options);
  page.heading(`Shifting report: ${report.bike.name}`);
  page.paragraph(`${bikeWords(report)}.`);
  page.paragraph(`${ridesAnalysed(report)}${failedWords(report)}.`);
  for (const note of report.bikeNotes) page.bullet(note.message);
  textVerdict(page, report);
  textNextStep(page, report);
  if (report.rides.length > 0) textCogs(page, report);
  textAdjustments(page, report);
  if (report.rides.length > 0) textRides(page, report);
  page.heading('What the logs cannot tell');
  for (const limit of limitWords(report)) page.bullet(limit);
  if (report.failed.length > 0) {
    page.heading('Files left out');
    for (const { message } of report.failed) page.bullet(message);
  }
  return page.toString();
}

function failedWords({ failed }: Report): string {
  return failed.length === 0 ? '' : `, ${counted(failed.length, 'file')} left out (see the end)`;
}

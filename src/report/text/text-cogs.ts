import { sum } from 'd3-array';
import { directions } from '../../cogs/directions.ts';
import { SAY_LITTLE } from '../../diagnosis/fewest-shifts.ts';
import { figure } from '../../numeric/figure.ts';
import type { CogReport, CogSkips, Report } from '../report-schema.ts';
import { COGS_TITLE, cogCells, cogTitles, TROUBLE_MEANING } from '../words/cog-cells.ts';
import { lostPastCogs } from '../words/cog-sentences.ts';
import { directionWords } from '../words/event-words.ts';
import {
  anySkips,
  describeSkipsByCog,
  SKIPS_MEANING,
  SKIPS_TITLE,
  skipCells,
  skipTitles,
} from '../words/skip-sentences.ts';
import { soundRidesAmong } from '../words/sound-rides-among.ts';
import type { TextPage } from './text-page.ts';
import { type TextColumn, textTable } from './text-table.ts';

const columns: TextColumn[] = [
  ...cogTitles.map((title): TextColumn => ({ title, align: 'right' })),
  { title: '', align: 'left' },
];

/** Tables by cog and direction, all rides together. */
export function textCogs(page: TextPage, report: Report): void {
  page.heading(COGS_TITLE);
  const sound = soundRidesAmong(report);
  if (sound) page.paragraph(sound);
  page.paragraph(TROUBLE_MEANING);
  for (const sentence of lostPastCogs(report.cogs)) page.paragraph(sentence);
  for (const direction of directions) {
    const rows = report.cogs.filter((cog) => cog.direction === direction);
    page.subheading(`Shifts ${directionWords[direction]}`);
    if (rows.every((cog) => cog.shifts === 0 && cog.ghostShifts === 0)) page.paragraph('None judged.', 2);
    else page.ready(textTable(columns, cogRows(rows)));
  }
  if (anySkips(report.skipsByCog)) textSkips(page, report.skipsByCog);
}

/** Skips by cog; those on which none was seen are left out, since the sentence counts the others. */
function textSkips(page: TextPage, cogs: readonly CogSkips[]): void {
  page.subheading(SKIPS_TITLE);
  page.paragraph(SKIPS_MEANING, 2);
  page.paragraph(describeSkipsByCog(cogs), 2);
  const titles = skipTitles.map((title): TextColumn => ({ title, align: 'right' }));
  page.ready(textTable(titles, cogs.filter(({ skips }) => skips > 0).map(skipCells)));
}

/** Whether a cog was used enough to tell and nothing went wrong onto it, nor by itself. */
const isSound = ({ shifts, late, missed, overshot, ghostShifts }: CogReport): boolean =>
  shifts >= SAY_LITTLE && late + missed + overshot + ghostShifts === 0;

/** A row a cog; those without any trouble in one line, at the end. */
function cogRows(cogs: readonly CogReport[]): string[][] {
  const sound = cogs.filter(isSound);
  if (sound.length < 2) return cogs.map(cogRow);
  const told = cogs.filter((cog) => !sound.includes(cog)).map(cogRow);
  const judged = sum(sound, ({ shifts }) => shifts);
  const label = told.length > 0 ? 'all others' : 'every cog';
  return [...told, [label, figure(judged), '0', '0', '0', '0', '0 %', '-', `${sound.length} cogs`]];
}

function cogRow(cog: CogReport): string[] {
  const { cells, doubt } = cogCells(cog);
  return [...cells, doubt || rateBar(cog.troubleRate ?? 0)];
}

/** The rate as a bar, one mark for five percent. */
function rateBar(rate: number): string {
  return '#'.repeat(Math.round(rate * 20));
}

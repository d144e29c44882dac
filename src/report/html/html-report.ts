import { counted } from '../../numeric/counted.ts';
import { rideTrend } from '../chart-data/ride-trend.ts';
import { drawRideTrend } from '../charts/ride-trend-chart.ts';
import type { Report } from '../report-schema.ts';
import { adjustmentEntries } from '../words/adjustment-entries.ts';
import { bikeWords } from '../words/bike-words.ts';
import { limitWords } from '../words/limit-words.ts';
import { LOOKED_AT, lookEntries } from '../words/look-entries.ts';
import { ridesAnalysed } from '../words/rides-analysed.ts';
import { chartFigure } from './chart-figure.ts';
import { GENERATOR } from './generator.ts';
import { htmlCogs } from './html-cogs.ts';
import { htmlRides } from './html-rides.ts';
import { htmlNextStep, htmlVerdict, htmlWeighed } from './html-verdict.ts';
import { html, Markup } from './markup.ts';
import { pageStyle } from './page-style.ts';

/**
 * The report as one page that stands on its own: no script, nothing loaded from elsewhere, light and dark, fit to
 * print. Every text from outside is escaped.
 */
export function htmlReport(report: Report): string {
  const title = `Shifting report: ${report.bike.name}`;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
${new Markup(GENERATOR)}
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}</title>
<style>${new Markup(pageStyle)}</style>
</head>
<body>
<main>
<h1>${title}</h1>
<p>${bikeWords(report)}. ${ridesAnalysed(report)}.</p>
${report.bikeNotes.map((note) => html`<p>${note.message}</p>`)}
${htmlVerdict(report)}
${htmlNextStep(report)}
${htmlWeighed(report)}
${report.rides.length > 0 ? [htmlCogs(report), htmlTrend(report)] : null}
${htmlAdjustments(report)}
${htmlLooks(report)}
${report.rides.length > 0 ? htmlRides(report) : null}
<section>
<h2>What the logs cannot tell</h2>
<ul>${limitWords(report).map((limit) => html`<li>${limit}</li>`)}</ul>
</section>
${htmlFailed(report)}
</main>
</body>
</html>
`.text;
}

function htmlTrend(report: Report): Markup {
  const trend = rideTrend(report);
  return html`<section>
<h2>Trouble over the rides</h2>
${chartFigure(
  'Trouble ride by ride',
  `${counted(trend.rides.length, 'ride')}, ${counted(trend.adjustments.length, 'adjustment')} marked.`,
  280,
  (svg, size) => drawRideTrend(svg, trend, size),
)}
</section>`;
}

function htmlAdjustments({ adjustments }: Report): Markup | null {
  if (adjustments.length === 0) return null;
  return html`<section>
<h2>Did the adjustments help?</h2>
<ul>${adjustmentEntries(adjustments).map((entry) => html`<li>${entry}</li>`)}</ul>
</section>`;
}

function htmlLooks({ looks = [] }: Report): Markup | null {
  if (looks.length === 0) return null;
  return html`<section>
<h2>${LOOKED_AT}</h2>
<ul>${lookEntries(looks).map((entry) => html`<li>${entry}</li>`)}</ul>
</section>`;
}

function htmlFailed({ failed }: Report): Markup | null {
  if (failed.length === 0) return null;
  return html`<section>
<h2>Files left out</h2>
<ul>${failed.map(({ message }) => html`<li>${message}</li>`)}</ul>
</section>`;
}

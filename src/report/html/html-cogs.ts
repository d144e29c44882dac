import { directions } from '../../cogs/directions.ts';
import { drawSkipsByCog } from '../charts/skips-by-cog-chart.ts';
import { drawTroubleByCog, eventRowsPx } from '../charts/trouble-by-cog-chart.ts';
import type { CogReport, CogSkips, Report } from '../report-schema.ts';
import { COGS_TITLE, cogCells, cogTitles, TROUBLE_MEANING } from '../words/cog-cells.ts';
import { describeTroubleByCog } from '../words/cog-sentences.ts';
import { directionWords } from '../words/event-words.ts';
import {
  anySkips,
  describeSkipsByCog,
  isHardlyPedalled,
  SKIPS_MEANING,
  SKIPS_TITLE,
  skipCells,
  skipTitles,
} from '../words/skip-sentences.ts';
import { soundRidesAmong } from '../words/sound-rides-among.ts';
import { chartFigure } from './chart-figure.ts';
import { html, type Markup } from './markup.ts';

/** Charts and tables by cog, all rides together: shifts in either direction, and skips where any were seen. */
export function htmlCogs({ cogs, skipsByCog, ...seen }: Report): Markup {
  const sound = soundRidesAmong(seen);
  return html`<section>
<h2>${COGS_TITLE}</h2>
${sound && html`<p class="quiet">${sound}</p>`}
<p class="quiet">${TROUBLE_MEANING}</p>
${chartFigure('Trouble by cog', describeTroubleByCog(cogs), 340 + eventRowsPx(cogs), (svg, size) => drawTroubleByCog(svg, cogs, size))}
${directions.map((direction) =>
  cogTable(
    `Shifts ${directionWords[direction]}`,
    cogs.filter((cog) => cog.direction === direction),
  ),
)}
${anySkips(skipsByCog) && htmlSkips(skipsByCog)}
</section>`;
}

const htmlSkips = (cogs: readonly CogSkips[]): Markup => html`<p class="quiet">${SKIPS_MEANING}</p>
${chartFigure(SKIPS_TITLE, describeSkipsByCog(cogs), 310, (svg, size) => drawSkipsByCog(svg, cogs, size))}
<div class="table-frame"><table>
<caption>${SKIPS_TITLE}</caption>
<thead><tr>${skipTitles.map((column) => html`<th scope="col">${column}</th>`)}</tr></thead>
<tbody>${cogs.map((cog) => {
  const [teeth, ...rest] = skipCells(cog);
  return html`<tr${isHardlyPedalled(cog) && html` class="few"`}><th scope="row">${teeth}</th>${rest.map((cell) => html`<td>${cell}</td>`)}</tr>
`;
})}</tbody>
</table></div>
`;

function cogTable(title: string, cogs: readonly CogReport[]): Markup {
  return html`<div class="table-frame"><table>
<caption>${title}</caption>
<thead><tr>${cogTitles.map((column) => html`<th scope="col">${column}</th>`)}<th scope="col" class="left">Note</th></tr></thead>
<tbody>${cogs.map(cogRow)}</tbody>
</table></div>
`;
}

function cogRow(cog: CogReport): Markup {
  const { cells, doubt } = cogCells(cog);
  const [teeth, ...rest] = cells;
  return html`<tr${doubt !== '' && html` class="few"`}><th scope="row">${teeth}</th>${rest.map((cell) => html`<td>${cell}</td>`)}<td class="left">${doubt}</td></tr>
`;
}

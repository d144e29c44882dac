import { figure } from '../../numeric/figure.ts';
import { drawTroubleByCog, eventRowsPx } from '../charts/trouble-by-cog-chart.ts';
import { FEW_SHIFTS } from '../few-shifts.ts';
import type { CogReport, Report } from '../report-schema.ts';
import { describeTroubleByCog } from '../words/cog-sentences.ts';
import { directionWords } from '../words/event-words.ts';
import { soundRidesAmong } from '../words/sound-rides-among.ts';
import { chartFigure } from './chart-figure.ts';
import { html, type Markup } from './markup.ts';

/** Chart and tables by cog and direction, all rides together. */
export function htmlCogs({ cogs, ...seen }: Report): Markup {
  const sound = soundRidesAmong(seen);
  return html`<section>
<h2>Shifts by cog and direction, all rides</h2>
${sound && html`<p class="quiet">${sound}</p>`}
<p class="quiet">Trouble is the share of judged shifts that were late, missed or settled beyond the cog asked for.</p>
${chartFigure('Trouble by cog', describeTroubleByCog(cogs), 340 + eventRowsPx(cogs), (svg, size) => drawTroubleByCog(svg, cogs, size))}
${(['to-larger', 'to-smaller'] as const).map((direction) =>
  cogTable(
    `Shifts ${directionWords[direction]}`,
    cogs.filter((cog) => cog.direction === direction),
  ),
)}
</section>`;
}

function cogTable(title: string, cogs: readonly CogReport[]): Markup {
  return html`<div class="table-frame"><table>
<caption>${title}</caption>
<thead><tr><th scope="col">Onto cog</th><th scope="col">Judged</th><th scope="col">Late</th><th scope="col">Missed</th><th scope="col">Over</th><th scope="col">Ghost</th><th scope="col">Trouble</th><th scope="col">95 % range</th><th scope="col" class="left">Note</th></tr></thead>
<tbody>${cogs.map(cogRow)}</tbody>
</table></div>
`;
}

function cogRow(cog: CogReport): Markup {
  const whole = (share: number): number => Math.round(share * 100);
  const note = cog.shifts === 0 ? 'not used' : cog.shifts < FEW_SHIFTS ? 'too few to tell' : '';
  return html`<tr${cog.shifts < FEW_SHIFTS && html` class="few"`}><th scope="row">${cog.teeth}</th>${[cog.shifts, cog.late, cog.missed, cog.overshot, cog.ghostShifts].map((count) => html`<td>${figure(count)}</td>`)}<td>${cog.troubleRate === null ? '-' : `${whole(cog.troubleRate)} %`}</td><td>${cog.troubleRate === null ? '-' : `${whole(cog.low)} to ${whole(cog.high)} %`}</td><td class="left">${note}</td></tr>
`;
}

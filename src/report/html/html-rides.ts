import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { rideStrip } from '../chart-data/ride-strip.ts';
import { drawRideStrip } from '../charts/ride-strip-chart.ts';
import type { Report } from '../report-schema.ts';
import type { RideReport } from '../ride-report-schema.ts';
import { seenCounts } from '../seen-counts.ts';
import { evidenceLabels } from '../words/event-words.ts';
import { durationWords } from '../words/number-words.ts';
import { rideNotes } from '../words/ride-notes.ts';
import { utcDayAndTime } from '../words/ride-time-words.ts';
import { chartFigure } from './chart-figure.ts';
import { html, type Markup } from './markup.ts';

/** Strips are drawn for the latest rides only, to keep the page a size that opens and prints. */
const MOST_STRIPS = 24;

/** What was seen in each ride: a table for all, then notes and a strip for each. */
export function htmlRides(report: Report): Markup {
  const undrawn = Math.max(0, report.rides.length - MOST_STRIPS);
  return html`<section>
<h2>What was seen in each ride</h2>
<div class="table-frame"><table>
<thead><tr><th scope="col">#</th><th scope="col" class="left">Started (UTC)</th><th scope="col">Pedalled</th><th scope="col" class="left">Evidence</th><th scope="col">Shifts</th><th scope="col">Judged</th><th scope="col">Late</th><th scope="col">Missed</th><th scope="col">Over</th><th scope="col">Ghost</th><th scope="col">Drops</th><th scope="col">Skips</th></tr></thead>
<tbody>${report.rides.map(rideRow)}</tbody>
</table></div>
<p class="quiet">Late: on the cog after 1.5 to 5 crank turns. Missed: not within 5, or not before the next shift. Over: settled beyond the cog asked for. Ghost: changed cog with no command in the 5 s before. A dash: the records of the ride cannot show it.</p>
${undrawn > 0 ? html`<p>Only the latest ${MOST_STRIPS} rides are drawn; the first ${counted(undrawn, 'ride')} stand in the table.</p>` : null}
${report.rides.map((ride, i) => oneRide(ride, i, report.bike.cassette, i >= undrawn))}
</section>`;
}

function rideRow(ride: RideReport, i: number): Markup {
  const { shifts, judged, late, missed, overshot, ghostShifts, chainDrops, skips } = seenCounts(ride);
  const numbers = [shifts, judged, late, missed, overshot, ghostShifts, chainDrops, skips];
  return html`<tr><th scope="row">${i + 1}</th><td class="left">${utcDayAndTime(ride.start)}</td><td>${ride.pedallingS === 0 ? '-' : durationWords(ride.pedallingS)}</td><td class="left">${evidenceLabels[ride.evidence]}</td>${numbers.map((number) => html`<td>${number === null ? '-' : figure(number)}</td>`)}</tr>
`;
}

function oneRide(ride: RideReport, i: number, cassette: readonly number[], drawn: boolean): Markup {
  const strip = drawn && (ride.shifts.length > 0 || ride.gears.some((run) => run.teeth !== null));
  return html`<h3>${i + 1}. ${ride.file}</h3>
<ul>${rideNotes(ride, 'page').map((note) => html`<li>${note}</li>`)}</ul>
${strip ? stripFigure(ride, i, cassette) : null}`;
}

function stripFigure(ride: RideReport, i: number, cassette: readonly number[]): Markup {
  const data = rideStrip(ride, cassette);
  return chartFigure(
    `Ride ${i + 1}, ${utcDayAndTime(ride.start)}`,
    `${counted(ride.counts.shifts, 'shift')} asked for; ${counted(data.events.length, 'event')} marked.`,
    120 + 16 * cassette.length,
    (svg, size) => drawRideStrip(svg, data, size),
  );
}

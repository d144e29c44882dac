import { figure } from '../../numeric/figure.ts';
import type { Report } from '../report-schema.ts';
import type { RideReport } from '../ride-report-schema.ts';
import { seenCounts } from '../seen-counts.ts';
import { rideNotes } from '../words/ride-notes.ts';
import { hoursAndMinutes, utcDayAndTime } from '../words/ride-time-words.ts';
import { printable, type TextPage } from './text-page.ts';
import { keepEnd, type TextColumn, textTable } from './text-table.ts';

const left = (title: string): TextColumn => ({ title, align: 'left' });
const right = (title: string): TextColumn => ({ title, align: 'right' });
const columns = [
  right('#'),
  left('Started (UTC)'),
  right('h:min'),
  right('Judged'),
  right('Late'),
  right('Missed'),
  right('Over'),
  right('Ghost'),
  right('Drops'),
  right('Skips'),
];

/** What was seen in each ride: one table for all, then for each what its reader must know. */
export function textRides(page: TextPage, report: Report): void {
  page.heading('What was seen in each ride');
  page.ready(
    textTable(
      columns,
      report.rides.map((ride, i) => rideRow(ride, i)),
      0,
    ),
  );
  page.paragraph(
    `h:min: time pedalled. Judged: shifts that could be judged of all that were asked for. Late: on the cog after 1.5 to 5 crank turns. Missed: not within 5, or not before the next shift. Over: settled beyond the cog asked for. Ghost: changed cog with no command in the 5 s before.${hidesAny(report) ? ' -: the records of the ride cannot show it.' : ''}`,
  );
  report.rides.forEach((ride, i) => {
    page.blank();
    page.ready([page.style.heading(`${String(i + 1).padStart(2)}  ${keepEnd(printable(ride.file), page.width - 4)}`)]);
    for (const line of rideNotes(ride, 'text')) page.bullet(line, '-', 4);
  });
}

/** True where some number of the table is a dash. */
const hidesAny = ({ rides }: Report): boolean =>
  rides.some((ride) => ride.pedallingS === 0 || Object.values(seenCounts(ride)).includes(null));

function rideRow(ride: RideReport, i: number): string[] {
  const { shifts, judged, late, missed, overshot, ghostShifts, chainDrops, skips } = seenCounts(ride);
  return [
    String(i + 1),
    utcDayAndTime(ride.start),
    ride.pedallingS === 0 ? '-' : hoursAndMinutes(ride.pedallingS),
    shifts === null ? '-' : `${figure(judged ?? 0)} of ${figure(shifts)}`,
    ...[late, missed, overshot, ghostShifts, chainDrops, skips].map((count) => (count === null ? '-' : figure(count))),
  ];
}

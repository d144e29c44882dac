import type { Report, RideReport } from '../report-schema.ts';
import { evidenceLabels } from '../words/event-words.ts';
import { dayAndTime } from '../words/moment-words.ts';
import { durationWords } from '../words/number-words.ts';
import { rideNotes } from '../words/ride-notes.ts';
import { printable, type TextPage } from './text-page.ts';
import { keepEnd, type TextColumn, textTable } from './text-table.ts';

const left = (title: string): TextColumn => ({ title, align: 'left' });
const right = (title: string): TextColumn => ({ title, align: 'right' });
const columns = [
  right('#'),
  left('Started (UTC)'),
  right('Pedalled'),
  left('Evidence'),
  right('Shifts'),
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
    'Late: on the cog after 1.5 to 5 crank turns. Missed: not within 5, or not before the next shift. Over: settled beyond the cog asked for. Ghost: changed cog with nobody asking.',
  );
  report.rides.forEach((ride, i) => {
    page.blank();
    page.ready([page.style.heading(`${String(i + 1).padStart(2)}  ${keepEnd(printable(ride.file), page.width - 4)}`)]);
    for (const line of rideNotes(ride)) page.bullet(line, '-', 4);
  });
}

function rideRow(ride: RideReport, i: number): string[] {
  const { counts } = ride;
  return [
    String(i + 1),
    dayAndTime(ride.start),
    durationWords(ride.pedallingS),
    evidenceLabels[ride.evidence],
    ...[
      counts.shifts,
      counts.shifts - counts.unjudged,
      counts.late,
      counts.missed,
      counts.overshot,
      counts.ghostShifts,
      counts.chainDrops,
      counts.skips,
    ].map(String),
  ];
}

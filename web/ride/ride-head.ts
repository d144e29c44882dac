import { evidenceWords } from '../../src/report/words/event-words.ts';
import type { BikeDetail, RideDetail } from '../api/answers.ts';
import { rideFileAddress } from '../api/rides.ts';
import { make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { dayAndTime } from '../words/dates.ts';
import { duration, fileSize } from '../words/numbers.ts';
import { ownZoneSentence } from '../words/time-zone.ts';
import { moveRideTool } from './move-ride.ts';

/** What ride this is, with `counts` for what happened in it. */
export function rideHead(
  ride: RideDetail,
  bike: BikeDetail | null,
  counts: HTMLElement,
  signal: AbortSignal,
): HTMLElement {
  const { report } = ride;
  const facts = [
    ride.durationS === null ? null : `${duration(ride.durationS)} long`,
    // Without cadence nobody knows how long it was pedalled.
    report && report.pedallingS > 0 && `${duration(report.pedallingS)} pedalled`,
    `${ride.file}, ${fileSize(ride.bytes)}`,
  ].filter(Boolean);
  return make(
    'div',
    { class: 'view-head' },
    make(
      'div',
      {},
      bike && make('a', { class: 'crumb', href: `/bikes/${bike.id}` }, icon('back'), bike.bike.name),
      make('h1', { tabindex: -1 }, ride.start ? dayAndTime(ride.start) : ride.file),
      counts,
      make('p', { class: 'quiet' }, facts.join(' · ')),
      ride.start && make('p', { class: 'quiet zone' }, ownZoneSentence()),
      ride.evidence &&
        ride.evidence !== 'full' &&
        make('p', { class: 'remark' }, `Records: ${evidenceWords[ride.evidence]}.`),
      moveRideTool(ride.id, ride.bikeId, signal),
    ),
    make('a', { class: 'button plain', href: rideFileAddress(ride.id), download: '' }, icon('save'), 'Save the file'),
  );
}

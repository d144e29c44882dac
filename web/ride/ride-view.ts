import { counted } from '../../src/numeric/counted.ts';
import { unclearShifts } from '../../src/report/words/unclear-outcome.ts';
import type { BikeDetail, RideColumns, RideDetail } from '../api/answers.ts';
import { getBike } from '../api/bikes.ts';
import { type Change, onChange } from '../api/changes.ts';
import { getColumns, getRide } from '../api/rides.ts';
import { fill, make } from '../dom/make.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { soon } from '../page/soon.ts';
import { reopen } from '../router/go.ts';
import type { View } from '../router/router.ts';
import { dayAndTime } from '../words/dates.ts';
import { rideDoubts } from '../words/ride-doubts.ts';
import { makeRideEvents } from './ride-events.ts';
import { rideHead } from './ride-head.ts';
import { rideSentence } from './ride-sentence.ts';
import { type DrawnFrom, sameAnalysis } from './same-analysis.ts';

interface Answers extends DrawnFrom {
  readonly columns: RideColumns | null;
}

/** True for changes of this ride, and for those that may be anything. */
const isOf = ({ rideId, bikeId }: Change, wanted: string): boolean => rideId === wanted || (!rideId && !bikeId);

/** True while an analysis is to come: what is shown until then is an earlier one. */
const isWaiting = ({ status }: RideDetail): boolean => status === 'queued' || status === 'analysing';

/** Said instead of a timeline while there is none. */
function notReady(ride: RideDetail): HTMLElement {
  const failed = ride.status === 'failed';
  return make(
    'div',
    { class: failed ? 'notice is-error' : 'notice' },
    make('h2', {}, failed ? 'This file could not be read' : 'Still being worked through'),
    make(
      'p',
      {},
      failed ? (ride.error?.message ?? 'No reason was given.') : 'The timeline stands here as soon as it is done.',
    ),
  );
}

const bikeOf = ({ bikeId }: RideDetail, signal: AbortSignal): Promise<BikeDetail | null> | null =>
  bikeId ? getBike(bikeId, signal).catch(() => null) : null;

async function load(rideId: string, signal: AbortSignal): Promise<Answers> {
  const ride = await getRide(rideId, signal);
  const [columns, bike] = await Promise.all([ride.report ? getColumns(rideId, signal) : null, bikeOf(ride, signal)]);
  return { ride, columns, bike };
}

/** All remarks on a ride: those of its analysis stand in its report, after those of its file. */
const remarksOn = ({ report, warnings }: RideDetail): RideDetail['warnings'] => report?.warnings ?? warnings;

const remarks = (ride: RideDetail): HTMLElement =>
  make('ul', { class: 'remarks' }, ...remarksOn(ride).map(({ message }) => make('li', { class: 'remark' }, message)));

/** The remarks, folded away unless they put the ride in doubt; false where there are none. */
function foldedRemarks(ride: RideDetail): HTMLElement | false {
  const said = remarksOn(ride);
  return (
    said.length > 0 &&
    make(
      'details',
      { class: 'warnings', open: rideDoubts(said).length > 0 },
      make('summary', {}, `${counted(said.length, 'remark')} on this ride`),
      remarks(ride),
    )
  );
}

/** Runs `work` soon after each change of this ride. */
function followRide(rideId: string, work: () => Promise<void>, signal: AbortSignal): void {
  const workSoon = soon(work, signal);
  onChange((change) => isOf(change, rideId) && workSoon(), signal);
}

/** Shows a ride that is not worked through, and opens it anew once it is, could not be, or is tried again. */
function showWaiting(place: HTMLElement, { ride, bike }: Answers, signal: AbortSignal): void {
  fill(place, rideHead(ride, bike, make('p', { class: 'lead is-strong' }), signal), remarks(ride), notReady(ride));
  const again = async (): Promise<void> => {
    const fresh = await load(ride.id, signal);
    if (!signal.aborted && (fresh.columns || isWaiting(fresh.ride) !== isWaiting(ride))) reopen();
  };
  followRide(ride.id, again, signal);
}

interface WorkedThrough {
  readonly ride: RideDetail;
  readonly report: NonNullable<RideDetail['report']>;
  readonly columns: RideColumns;
  readonly bike: BikeDetail | null;
  /** Key of the event to open. */
  readonly opened: string | null;
}

/** Shows a ride with its timeline and its events. Follows what is said of the events; a new analysis is opened anew. */
function showEvents(
  place: HTMLElement,
  { ride, report, columns, bike, opened }: WorkedThrough,
  signal: AbortSignal,
): void {
  const counts = make(
    'p',
    { class: 'lead is-strong' },
    rideSentence(ride.counts ?? report.counts, unclearShifts(report)),
  );
  let waited = isWaiting(ride);
  const refresh = async (): Promise<void> => {
    const fresh = await getRide(ride.id, signal);
    if (isWaiting(fresh)) waited = true;
    else if (waited || !sameAnalysis({ ride, bike }, { ride: fresh, bike: await bikeOf(fresh, signal) })) {
      if (!signal.aborted) reopen();
      return;
    }
    if (!fresh.report) return;
    counts.textContent = rideSentence(fresh.counts ?? fresh.report.counts, unclearShifts(fresh.report));
    events.take(fresh.report);
  };
  const events = makeRideEvents({ ride, report, columns, opened, onJudged: refresh, signal });
  followRide(ride.id, refresh, signal);
  fill(place, rideHead(ride, bike, counts, signal), foldedRemarks(ride), events.elements);
}

/** One ride: what happened in it, its timeline, and each event in detail. */
export const rideView: View = ({ place, parts, query, signal }) => {
  namePage('Ride');
  const show = (answers: Answers): void => {
    const { ride, columns } = answers;
    const { report } = ride;
    namePage(ride.start ? `Ride of ${dayAndTime(ride.start)}` : ride.file);
    if (columns && report) showEvents(place, { ...answers, report, columns, opened: query.get('event') }, signal);
    else showWaiting(place, answers, signal);
  };
  loadInto(place, 'the ride', signal, () => load(parts.rideId, signal), show);
};

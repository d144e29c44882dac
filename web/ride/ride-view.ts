import { evidenceWords } from '../../src/report/words/event-words.ts';
import type { BikeDetail, RideColumns, RideDetail } from '../api/answers.ts';
import { getBike } from '../api/bikes.ts';
import { type Change, onChange } from '../api/changes.ts';
import { getColumns, getRide, rideFileAddress } from '../api/rides.ts';
import { makeTrack } from '../charts/timeline/ride-track.ts';
import { makeTimeline } from '../charts/timeline/timeline.ts';
import { fill, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { soon } from '../page/soon.ts';
import { note, reopen } from '../router/go.ts';
import type { View } from '../router/router.ts';
import { dayAndTime } from '../words/dates.ts';
import { fileStem } from '../words/file-stem.ts';
import { counted, duration, fileSize } from '../words/numbers.ts';
import { makeEventList } from './event-list.ts';
import { makeEventPanel } from './event-panel.ts';
import { eventAloud } from './event-words.ts';
import { makeKindPicker } from './kind-picker.ts';
import { moveRideTool } from './move-ride.ts';
import { type RideEvent, rideEvents } from './ride-event.ts';
import { rideSentence } from './ride-sentence.ts';

interface Answers {
  readonly ride: RideDetail;
  readonly columns: RideColumns | null;
  readonly bike: BikeDetail | null;
}

/** True for changes of this ride, and for those that may be anything. */
const isOf = ({ rideId, bikeId }: Change, wanted: string): boolean => rideId === wanted || (!rideId && !bikeId);

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

function head(ride: RideDetail, bike: BikeDetail | null, counts: HTMLElement): HTMLElement {
  const { report } = ride;
  const facts = [
    ride.durationS === null ? null : `${duration(ride.durationS)} long`,
    report && `${duration(report.pedallingS)} pedalled`,
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
      ride.evidence &&
        ride.evidence !== 'full' &&
        make('p', { class: 'remark' }, `Records: ${evidenceWords[ride.evidence]}.`),
      moveRideTool(ride.id, ride.bikeId),
    ),
    make('a', { class: 'button plain', href: rideFileAddress(ride.id), download: '' }, icon('save'), 'Save the file'),
  );
}

/** One ride: what happened in it, its timeline, and each event in detail. */
export const rideView: View = ({ place, parts, query, signal }) => {
  namePage('Ride');
  const { rideId } = parts;
  const load = async (): Promise<Answers> => {
    const ride = await getRide(rideId, signal);
    const [columns, bike] = await Promise.all([
      ride.report ? getColumns(rideId, signal) : null,
      ride.bikeId ? getBike(ride.bikeId, signal).catch(() => null) : null,
    ]);
    return { ride, columns, bike };
  };
  const show = ({ ride, columns, bike }: Answers): void => {
    namePage(ride.start ? `Ride of ${dayAndTime(ride.start)}` : ride.file);
    const counts = make('p', { class: 'lead is-strong' });
    const warnings = make(
      'ul',
      { class: 'remarks' },
      ...ride.warnings.map(({ message }) => make('li', { class: 'remark' }, message)),
    );
    if (!columns || !ride.report) {
      fill(place, head(ride, bike, counts), warnings, notReady(ride));
      const again = soon(async () => {
        const answers = await load();
        if (answers.columns) reopen();
      }, signal);
      onChange((change) => isOf(change, rideId) && again(), signal);
      return;
    }
    let events: readonly RideEvent[] = [];
    let opened: string | null = query.get('event');
    const track = makeTrack(columns);
    const timeline = makeTimeline({
      track,
      fileName: fileStem('timeline', ride.file),
      nameOf: (key) => events.map((event) => (event.key === key ? eventAloud(event) : '')).join(''),
      onOpen: (key) => open(key, true),
      signal,
    });
    const picker = makeKindPicker(() => draw());
    const list = makeEventList((key) => open(key, true));
    const panel = makeEventPanel({
      rideId,
      track,
      rolloutMm: ride.report.rolloutMm,
      sensorLagS: ride.report.sensorLagS,
      fileStem: fileStem(ride.file),
      onStep: (way) => {
        const shown = events.filter(({ kind }) => picker.shows(kind));
        const next = shown[shown.findIndex(({ key }) => key === opened) + way];
        if (next) open(next.key, false);
      },
      onJudged: () => refresh(),
    });
    const draw = (): void => {
      const shown = events.filter(({ kind }) => picker.shows(kind));
      timeline.setEvents(
        shown.map(({ key, kind, timeS, verdict }) => ({ key, kind, timeS, rejected: verdict === 'rejected' })),
      );
      list.show(shown, opened);
      panel.show(shown, events.find(({ key }) => key === opened) ?? null);
      timeline.open(opened);
    };
    const open = (key: string, bring: boolean): void => {
      opened = key;
      note(`/rides/${encodeURIComponent(rideId)}?event=${encodeURIComponent(key)}`);
      draw();
      if (bring) panel.bring();
    };
    const take = (fresh: RideDetail): void => {
      if (!fresh.report) return;
      events = rideEvents(fresh.report);
      counts.textContent = rideSentence(fresh.counts ?? fresh.report.counts);
      picker.count(events);
      draw();
    };
    const refresh = async (): Promise<void> => take(await getRide(rideId, signal));
    const refreshSoon = soon(refresh, signal);
    onChange((change) => isOf(change, rideId) && refreshSoon(), signal);
    take(ride);
    if (opened === null) {
      // The first event stands open, so that the place for events explains itself.
      opened = events.find(({ kind }) => picker.shows(kind))?.key ?? null;
      draw();
    }
    fill(
      place,
      head(ride, bike, counts),
      warnings.childElementCount > 0 &&
        make(
          'details',
          { class: 'warnings' },
          make('summary', {}, `${counted(warnings.childElementCount, 'remark')} on the records`),
          warnings,
        ),
      make(
        'section',
        { class: 'ride-timeline', 'aria-labelledby': 'timeline' },
        make('div', { class: 'section-head' }, make('h2', { id: 'timeline' }, 'Timeline'), picker.element),
        make('div', { class: 'panel' }, timeline.element),
      ),
      make('section', { class: 'ride-events', 'aria-label': 'Events' }, list.element, panel.element),
    );
  };
  loadInto(place, 'the ride', signal, load, show);
};

import type { RideColumns, RideDetail } from '../api/answers.ts';
import { makeTrack } from '../charts/timeline/ride-track.ts';
import { makeTimeline } from '../charts/timeline/timeline.ts';
import { make } from '../dom/make.ts';
import { note } from '../router/go.ts';
import { fileStem } from '../words/file-stem.ts';
import { makeEventList } from './event-list.ts';
import { makeEventPanel } from './event-panel.ts';
import { eventAloud } from './event-words.ts';
import { makeKindPicker } from './kind-picker.ts';
import { type RideEvent, rideEvents } from './ride-event.ts';

type Report = NonNullable<RideDetail['report']>;

interface EventsPlan {
  readonly ride: RideDetail;
  readonly report: Report;
  readonly columns: RideColumns;
  /** Key of the event that is open at first; null: the first one that is shown. */
  readonly opened: string | null;
  /** The rider judged an event: the ride is to be asked for again. */
  readonly onJudged: () => Promise<void>;
  readonly signal: AbortSignal;
}

/** The events of a ride on its timeline, in a list and one in detail: what is chosen in one is chosen in all. */
export function makeRideEvents({ ride, report, columns, opened: first, onJudged, signal }: EventsPlan): {
  readonly elements: readonly HTMLElement[];
  take(report: Report): void;
} {
  let events: readonly RideEvent[] = [];
  let opened = first;
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
    rideId: ride.id,
    track,
    rolloutMm: report.rolloutMm,
    sensorLagS: report.sensorLagS,
    fileStem: fileStem(ride.file),
    onStep: (way) => {
      const among = shown();
      const next = among[among.findIndex(({ key }) => key === opened) + way];
      if (next) open(next.key, false);
    },
    onJudged,
  });
  const shown = (): RideEvent[] => events.filter(({ kind }) => picker.shows(kind));
  const draw = (): void => {
    const among = shown();
    timeline.setEvents(
      among.map(({ key, kind, timeS, verdict }) => ({ key, kind, timeS, rejected: verdict === 'rejected' })),
    );
    list.show(among, opened);
    panel.show(among, events.find(({ key }) => key === opened) ?? null);
    timeline.open(opened);
  };
  const open = (key: string, bring: boolean): void => {
    opened = key;
    note(`/rides/${encodeURIComponent(ride.id)}?event=${encodeURIComponent(key)}`);
    draw();
    if (bring) panel.bring();
  };
  const take = (fresh: Report): void => {
    events = rideEvents(fresh);
    picker.count(events);
    draw();
  };
  take(report);
  if (opened === null) {
    // The first event stands open, so that the place for events explains itself.
    opened = shown()[0]?.key ?? null;
    draw();
  }
  return {
    elements: [
      make(
        'section',
        { class: 'ride-timeline', 'aria-labelledby': 'timeline' },
        make('div', { class: 'section-head' }, make('h2', { id: 'timeline' }, 'Timeline'), picker.element),
        make('div', { class: 'panel' }, timeline.element),
      ),
      make('section', { class: 'ride-events', 'aria-label': 'Events' }, list.element, panel.element),
    ],
    take,
  };
}

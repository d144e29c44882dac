import type { RideColumns, RideDetail } from '../api/answers.ts';
import { lostSpells } from '../charts/timeline/lost-spells.ts';
import { makeTrack, type RideTrack } from '../charts/timeline/ride-track.ts';
import { makeTimeline, type Timeline } from '../charts/timeline/timeline.ts';
import type { TimelineEvent } from '../charts/timeline/timeline-event.ts';
import { make } from '../dom/make.ts';
import { note } from '../router/go.ts';
import { fileStem } from '../words/file-stem.ts';
import { makeEventList } from './event-list.ts';
import { type EventPanel, makeEventPanel } from './event-panel.ts';
import { eventAloud } from './event-words.ts';
import { makeKindPicker } from './kind-picker.ts';
import { isRejected, type RideEvent, rideEvents } from './ride-event.ts';
import { makeTellEvent } from './tell-event.ts';

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

/** The events of a ride on its timeline, in a list and one in detail. */
export interface RideEventsView {
  readonly elements: readonly HTMLElement[];
  /** Shows what a fresh report says. */
  take(report: Report): void;
}

/** Makes the view of a ride's events: what is chosen on the timeline, in the list or in detail is chosen in all. */
export const makeRideEvents = (plan: EventsPlan): RideEventsView => new LinkedEvents(plan);

class LinkedEvents implements RideEventsView {
  readonly elements: readonly HTMLElement[];
  readonly #plan: EventsPlan;
  readonly #track: RideTrack;
  readonly #timeline: Timeline;
  readonly #picker = makeKindPicker(() => this.#draw());
  readonly #list = makeEventList((key) => this.#bring(key, this.#list));
  readonly #panel: EventPanel;
  #events: readonly RideEvent[] = [];
  /** Key of the event that is open. */
  #opened: string | null;
  /** Where the reader opened it. */
  #openedIn: { focus(): void };

  constructor(plan: EventsPlan) {
    this.#plan = plan;
    this.#opened = plan.opened;
    this.#openedIn = this.#list;
    const { ride, report } = plan;
    const track = makeTrack(plan.columns, report.sensorLagS);
    this.#track = track;
    const tell = makeTellEvent({
      rideId: ride.id,
      startMs: Date.parse(report.start),
      durationS: report.durationS,
      onTold: async (key) => {
        await plan.onJudged();
        this.#bring(key, this.#list);
      },
    });
    this.#timeline = makeTimeline({
      track,
      fileName: fileStem('timeline', ride.file),
      nameOf: (key) => this.#events.map((event) => (event.key === key ? eventAloud(event) : '')).join(''),
      onOpen: (key) => this.#bring(key, this.#timeline),
      onPick: (timeS) => tell.pick(timeS),
      signal: plan.signal,
    });
    this.#panel = makeEventPanel({
      rideId: ride.id,
      track,
      rolloutMm: report.rolloutMm,
      sensorLagS: report.sensorLagS,
      evidence: report.evidence,
      fileStem: fileStem(ride.file),
      onStep: (way) => this.#step(way),
      onLeave: () => this.#openedIn.focus(),
      onJudged: plan.onJudged,
    });
    this.elements = [
      timelineSection(this.#picker.element, this.#timeline.element, tell.element),
      make('section', { class: 'ride-events', 'aria-label': 'Events' }, this.#list.element, this.#panel.element),
    ];
    this.take(report);
    if (this.#opened !== null) return;
    // The first event stands open, so that the place for events explains itself.
    this.#opened = this.#shown()[0]?.key ?? null;
    this.#draw();
  }

  take(report: Report): void {
    this.#events = rideEvents(report);
    this.#picker.count(this.#events);
    this.#draw();
  }

  #shown(): RideEvent[] {
    return this.#events.filter(({ kind }) => this.#picker.shows(kind));
  }

  #draw(): void {
    const among = this.#shown();
    const lost = lostSpells(this.#track, this.#events.map(onTimeline));
    this.#timeline.setEvents(among.map(onTimeline), lost);
    this.#list.show(among, this.#opened);
    this.#panel.show(among, this.#events.find(({ key }) => key === this.#opened) ?? null, lost);
    this.#timeline.open(this.#opened);
  }

  /** Opens an event that was chosen in the list or on the timeline, and leads to it. */
  #bring(key: string, chosenIn: { focus(): void }): void {
    this.#openedIn = chosenIn;
    this.#open(key);
    this.#panel.bring();
  }

  #open(key: string): void {
    this.#opened = key;
    note(`/rides/${encodeURIComponent(this.#plan.ride.id)}?event=${encodeURIComponent(key)}`);
    this.#draw();
  }

  #step(way: 1 | -1): void {
    const among = this.#shown();
    const next = among[among.findIndex(({ key }) => key === this.#opened) + way];
    if (next) this.#open(next.key);
  }
}

const onTimeline = (event: RideEvent): TimelineEvent => ({
  key: event.key,
  kind: event.kind,
  timeS: event.timeS,
  rejected: isRejected(event),
});

const timelineSection = (picker: HTMLElement, timeline: HTMLElement, tell: HTMLElement): HTMLElement =>
  make(
    'section',
    { class: 'ride-timeline', 'aria-labelledby': 'timeline' },
    make('div', { class: 'section-head' }, make('h2', { id: 'timeline' }, 'Timeline'), picker),
    make('div', { class: 'panel' }, timeline),
    tell,
  );

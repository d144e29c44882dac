import { chartFigure } from '../charts/chart-figure.ts';
import { cutMoment } from '../charts/moment/moment.ts';
import { momentPlan } from '../charts/moment/moment-plan.ts';
import type { RideTrack } from '../charts/timeline/ride-track.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { clock, isDated, rideClock } from '../words/dates.ts';
import { fileStem } from '../words/file-stem.ts';
import { makeEventVerdict } from './event-verdict.ts';
import { eventTitle } from './event-words.ts';
import type { RideEvent } from './ride-event.ts';
import { whyJudged } from './why-judged.ts';

interface PanelPlan {
  readonly rideId: string;
  readonly track: RideTrack;
  readonly rolloutMm: number | null;
  readonly sensorLagS: number | null;
  readonly fileStem: string;
  readonly onStep: (way: 1 | -1) => void;
  readonly onJudged: () => Promise<void>;
}

/** The panel that shows one event closely. */
export interface EventPanel {
  readonly element: HTMLElement;
  /** Shows an event among those the reader chose to see; null: none opened. */
  show(among: readonly RideEvent[], event: RideEvent | null): void;
  /** Scrolls the panel into view and puts the focus on its heading. */
  bring(): void;
}

/** The thirty seconds around an event, drawn. */
function momentFigure({ track, rolloutMm, fileStem: stem }: PanelPlan, event: RideEvent): HTMLElement {
  const isShift = 'shift' in event;
  const moment = cutMoment(track, event.timeS, {
    rolloutMm,
    turns: isShift ? event.shift.turns : null,
  });
  const fileName = fileStem(stem, 'moment', rideClock(event.timeS));
  return chartFigure(momentPlan({ moment, title: 'The thirty seconds around it', fileName, isShift }));
}

/** One event in detail: its thirty seconds, why it was judged so, and what the rider says of it. */
export function makeEventPanel(plan: PanelPlan): EventPanel {
  const heading = make('h2', { tabindex: -1 });
  const why = make('ul', { class: 'points' });
  const verdict = makeEventVerdict(plan.rideId, plan.onJudged);
  const chartPlace = make('div', {});
  const earlier = listen(make('button', { type: 'button', class: 'plain small' }, icon('left'), 'Earlier one'), {
    click: () => plan.onStep(-1),
  });
  const later = listen(make('button', { type: 'button', class: 'plain small' }, 'Later one', icon('right')), {
    click: () => plan.onStep(1),
  });
  const contents = make(
    'div',
    { class: 'event-contents' },
    make('div', { class: 'section-head' }, heading, make('div', { class: 'row' }, earlier, later)),
    make('h3', {}, 'Why it was judged so'),
    why,
    verdict.element,
    chartPlace,
  );
  const nothing = make(
    'p',
    { class: 'quiet' },
    'Choose an event, in the list or on the timeline, to see its thirty seconds.',
  );
  const element = make('div', { class: 'panel event-panel' }, nothing, contents);
  let drawn: string | null = null;

  return {
    element,
    show: (among, event) => {
      nothing.hidden = event !== null;
      contents.hidden = event === null;
      if (!event) return;
      const at = among.findIndex(({ key }) => key === event.key);
      earlier.disabled = at <= 0;
      later.disabled = at < 0 || at >= among.length - 1;
      heading.textContent = eventTitle(event);
      fill(
        why,
        make('li', {}, `${rideClock(event.timeS)} into the ride${isDated(event.at) ? `, at ${clock(event.at)}` : ''}.`),
        ...whyJudged(event, plan.sensorLagS).map((sentence) => make('li', {}, sentence)),
      );
      verdict.show(event);
      if (drawn === event.key) return;
      drawn = event.key;
      fill(chartPlace, momentFigure(plan, event));
    },
    bring: () => {
      heading.focus({ preventScroll: true });
      element.scrollIntoView({ block: 'nearest' });
    },
  };
}

import type { LostSpell } from '../../src/report/charts/lost-spells.ts';
import type { RideReport } from '../api/answers.ts';
import { chartFigure } from '../charts/chart-figure.ts';
import { cutMoment } from '../charts/moment/moment.ts';
import { momentPlan } from '../charts/moment/moment-plan.ts';
import type { RideTrack } from '../charts/timeline/ride-track.ts';
import { type Child, fill, listen, make } from '../dom/make.ts';
import { onEscape } from '../dom/on-escape.ts';
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
  readonly evidence: RideReport['evidence'];
  readonly fileStem: string;
  readonly onStep: (way: 1 | -1) => void;
  /** Leads back to where the event was opened. */
  readonly onLeave: () => void;
  readonly onJudged: () => Promise<void>;
}

/** The panel that shows one event closely. */
export interface EventPanel {
  readonly element: HTMLElement;
  /** Shows an event among those the reader chose to see (null: none opened), with where drive was lost. */
  show(among: readonly RideEvent[], event: RideEvent | null, lost: readonly LostSpell[]): void;
  /** Scrolls the panel into view and puts the focus on its heading. */
  bring(): void;
}

/** The thirty seconds around an event, drawn. */
function momentFigure(
  { track, rolloutMm, fileStem: stem }: PanelPlan,
  event: RideEvent,
  lost: readonly LostSpell[],
): HTMLElement {
  const isShift = 'shift' in event;
  const moment = cutMoment(track, event.timeS, {
    rolloutMm,
    turns: isShift ? event.shift.turns : null,
    lost,
    ...(isShift && { toTeeth: event.shift.toTeeth }),
  });
  const fileName = fileStem(stem, 'moment', rideClock(event.timeS));
  return chartFigure(momentPlan({ moment, title: 'The thirty seconds around it', fileName, isShift }));
}

/** One event in detail: its thirty seconds, why it was judged so, and what the rider says of it. */
export const makeEventPanel = (plan: PanelPlan): EventPanel => new DetailPanel(plan);

class DetailPanel implements EventPanel {
  readonly element: HTMLElement;
  readonly #plan: PanelPlan;
  readonly #heading = make('h2', { tabindex: -1 });
  readonly #why = make('ul', { class: 'points' });
  readonly #verdict: ReturnType<typeof makeEventVerdict>;
  readonly #chartPlace = make('div', {});
  readonly #earlier: HTMLButtonElement;
  readonly #later: HTMLButtonElement;
  readonly #contents: HTMLElement;
  readonly #nothing = make(
    'p',
    { class: 'quiet' },
    'Choose an event, in the list or on the timeline, to see its thirty seconds.',
  );
  /** The event whose chart is drawn, with as many spells without drive as it was drawn with. */
  #drawn: string | null = null;

  constructor(plan: PanelPlan) {
    this.#plan = plan;
    this.#verdict = makeEventVerdict(plan.rideId, plan.onJudged);
    const step = (way: 1 | -1, ...words: Child[]): HTMLButtonElement =>
      listen(make('button', { type: 'button', class: 'plain small' }, ...words), { click: () => plan.onStep(way) });
    this.#earlier = step(-1, icon('left'), 'Earlier one');
    this.#later = step(1, 'Later one', icon('right'));
    const steps = make('div', { class: 'row' }, this.#earlier, this.#later);
    this.#contents = make(
      'div',
      { class: 'event-contents' },
      make('div', { class: 'section-head' }, this.#heading, steps),
      make('h3', {}, 'Why it was judged so'),
      this.#why,
      this.#verdict.element,
      this.#chartPlace,
    );
    this.element = onEscape(make('div', { class: 'panel event-panel' }, this.#nothing, this.#contents), plan.onLeave);
  }

  show(among: readonly RideEvent[], event: RideEvent | null, lost: readonly LostSpell[]): void {
    this.#nothing.hidden = event !== null;
    this.#contents.hidden = event === null;
    if (!event) return;
    const at = among.findIndex(({ key }) => key === event.key);
    this.#earlier.disabled = at <= 0;
    this.#later.disabled = at < 0 || at >= among.length - 1;
    this.#heading.textContent = eventTitle(event);
    const when = `${rideClock(event.timeS)} into the ride${isDated(event.at) ? `, at ${clock(event.at)}` : ''}.`;
    const sentences = [when, ...whyJudged(event, this.#plan)];
    fill(this.#why, ...sentences.map((sentence) => make('li', {}, sentence)));
    this.#verdict.show(event);
    const drawn = `${event.key} ${lost.length}`;
    if (this.#drawn === drawn) return;
    this.#drawn = drawn;
    fill(this.#chartPlace, momentFigure(this.#plan, event, lost));
  }

  bring(): void {
    this.#heading.focus({ preventScroll: true });
    this.element.scrollIntoView({ block: 'nearest' });
  }
}

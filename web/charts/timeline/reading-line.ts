import type { LostSpell } from '../../../src/report/charts/lost-spells.ts';
import { announce } from '../../dom/announce.ts';
import { fill, make } from '../../dom/make.ts';
import { readingAt } from './reading-words.ts';
import type { RideTrack } from './ride-track.ts';
import type { TimelineEvent } from './timeline-event.ts';
import type { ViewWindow } from './view-window.ts';

const hint = 'Touch the ride or point at it to read it, drag it to move along. “Closer” and “Wider” zoom.';

interface LinePlan {
  readonly track: RideTrack;
  readonly view: ViewWindow;
  readonly events: () => readonly TimelineEvent[];
  readonly lost: () => readonly LostSpell[];
  /** An event's name in words, for a screen reader. */
  readonly nameOf: (key: string) => string;
  readonly onChange: () => void;
}

/** The line at which the ride is read, and what stands there in words. */
export class ReadingLine {
  readonly element = make('dl', { class: 'timeline-reading', 'aria-hidden': 'true' });
  readonly #plan: LinePlan;
  #timeS: number | null = null;

  constructor(plan: LinePlan) {
    this.#plan = plan;
    this.to(null);
  }

  /** Second under the line; null: none. */
  get timeS(): number | null {
    return this.#timeS;
  }

  /** Reads at a second; null takes the line away. */
  to(timeS: number | null, aloud = false): void {
    const { track, lost, onChange } = this.#plan;
    this.#timeS = timeS === null ? null : Math.max(0, Math.min(timeS, track.durationS));
    const values = this.#timeS === null ? [] : readingAt(track, this.#timeS, lost());
    fill(
      this.element,
      ...values.map(({ name, text }) => make('div', {}, make('dt', {}, name), make('dd', {}, text))),
      values.length === 0 && make('div', {}, make('dt', {}, hint)),
    );
    if (aloud) announce(values.map(({ name, text }) => `${name} ${text}`).join(', '));
    onChange();
  }

  /** Reads a hundredth of the view further on, a second at least. */
  step(way: 1 | -1): void {
    const [fromS, toS] = this.#plan.view.seconds();
    this.bring((this.#timeS ?? (fromS + toS) / 2) + way * Math.max(1, (toS - fromS) / 100));
  }

  /** Brings a second into view and reads it aloud. */
  bring(timeS: number): void {
    const { view, track } = this.#plan;
    view.bring(Math.max(0, Math.min(timeS, track.durationS)));
    this.to(timeS, true);
  }

  /** Goes to the event before or after the line. */
  toEvent(way: 1 | -1): void {
    const { view, events, nameOf } = this.#plan;
    const from = this.#timeS ?? view.seconds()[0];
    const inOrder = way > 0 ? events() : [...events()].reverse();
    const next = inOrder.find((event) => (event.timeS - from) * way > 0.5);
    if (!next) {
      announce('No further event');
      return;
    }
    view.bring(next.timeS);
    this.to(next.timeS);
    announce(nameOf(next.key));
  }
}

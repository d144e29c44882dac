import { counted } from '../../src/numeric/counted.ts';
import { chance } from '../../src/numeric/percent.ts';
import { chancesInWords, isUnclear, mayWellBeClean } from '../../src/report/words/unclear-outcome.ts';
import { fill, listen, make } from '../dom/make.ts';
import { rideClock } from '../words/dates.ts';
import { eventTitle } from './event-words.ts';
import { kindMark } from './kind-picker.ts';
import { isRejected, type RideEvent } from './ride-event.ts';

const AT_ONCE = 200;

/** The list of a ride's events. */
export interface EventList {
  readonly element: HTMLElement;
  show(events: readonly RideEvent[], opened: string | null): void;
  /** Puts the focus on the row of the event that is open. */
  focus(): void;
}

/** What the rider said of an event, else how sure the engine is of it. */
function sureness(event: RideEvent): string {
  const { verdict, kind, confidence } = event;
  if (isRejected(event)) return 'rejected';
  if (verdict === 'confirmed') return verdict;
  if (verdict === 'told') return 'told by you';
  const unclear = 'shift' in event && isUnclear(event.shift) ? chancesInWords(event.shift) : null;
  if (unclear !== null) return unclear;
  return kind === 'unjudged' ? '' : `${chance(confidence)} sure`;
}

function eventRow(event: RideEvent, isOpen: boolean, onOpen: (key: string) => void): HTMLElement {
  const button = make(
    'button',
    { type: 'button', class: 'event-row', value: event.key, 'aria-current': isOpen ? 'true' : null },
    kindMark(event.kind, 'shift' in event && mayWellBeClean(event.shift)),
    make('span', { class: 'event-title' }, eventTitle(event)),
    make('span', { class: 'event-time' }, rideClock(event.timeS)),
    make('span', { class: 'event-sure' }, sureness(event)),
  );
  return make('li', {}, listen(button, { click: () => onOpen(event.key) }));
}

/** How many events stand, and how many of those listed were rejected. */
function eventsCounted(events: readonly RideEvent[]): string {
  const rejected = events.filter(isRejected).length;
  return `${counted(events.length - rejected, 'event')}${rejected > 0 ? `, ${rejected} rejected` : ''}`;
}

/** The events in order of time, each a button that opens it. Long lists grow on demand. */
export function makeEventList(onOpen: (key: string) => void): EventList {
  const heading = make('h2', {});
  const list = make('ol', { class: 'event-list' });
  const more = make('button', { type: 'button', class: 'plain small' });
  let limit = AT_ONCE;
  let last: [readonly RideEvent[], string | null] = [[], null];

  const show = (events: readonly RideEvent[], opened: string | null): void => {
    last = [events, opened];
    const focused = list.contains(document.activeElement) ? (document.activeElement as HTMLButtonElement).value : null;
    const scrolled = list.scrollTop;
    const openedAt = events.findIndex(({ key }) => key === opened);
    const count = Math.max(limit, openedAt + 1);
    heading.textContent = eventsCounted(events);
    fill(
      list,
      ...events.slice(0, count).map((event) => eventRow(event, event.key === opened, onOpen)),
      events.length === 0 && make('li', { class: 'quiet' }, 'Nothing of the kinds chosen above.'),
    );
    more.hidden = events.length <= count;
    more.textContent = `Show ${Math.min(AT_ONCE, events.length - count)} more`;
    list.scrollTop = scrolled;
    if (focused !== null)
      [...list.querySelectorAll('button')].find(({ value }) => value === focused)?.focus({ preventScroll: true });
  };
  const focus = (): void => list.querySelector<HTMLElement>('[aria-current]')?.focus();
  listen(more, {
    click: () => {
      limit += AT_ONCE;
      show(...last);
    },
  });
  return { element: make('div', { class: 'event-column' }, heading, list, more), show, focus };
}

import { upperFirst } from '../../src/numeric/upper-first.ts';
import { type EventKind, kindShape } from '../charts/timeline/timeline-event.ts';
import { fill, listen, make, makeSvg } from '../dom/make.ts';
import { kindWords } from './event-words.ts';
import { countsAs, eventKinds, isTrouble, type RideEvent } from './ride-event.ts';

/** An event's shape as it stands on the timeline; `isDoubtful`: faint and broken. */
export const kindMark = (kind: EventKind, isDoubtful = false): SVGSVGElement =>
  makeSvg(
    'svg',
    {
      class: `kind-mark is-${isTrouble(kind) ? 'trouble' : 'calm'} is-${kind}${isDoubtful ? ' is-doubtful' : ''}`,
      viewBox: '-9 -9 18 18',
      'aria-hidden': 'true',
    },
    makeSvg('path', { d: kindShape[kind] }),
  );

/** The boxes that say which kinds of events are shown. */
export interface KindPicker {
  readonly element: HTMLElement;
  shows(kind: EventKind): boolean;
  count(events: readonly RideEvent[]): void;
}

/** Legend of the timeline and choice of what it shows; what is no trouble is left out at first. */
export function makeKindPicker(changed: () => void): KindPicker {
  const shown = new Set<EventKind>(eventKinds.filter(isTrouble));
  const element = make('div', { class: 'row kind-picker', role: 'group', 'aria-label': 'Events shown' });
  return {
    element,
    shows: (kind) => shown.has(kind),
    count: (events) => {
      const focused = element.contains(document.activeElement)
        ? (document.activeElement as HTMLButtonElement).value
        : null;
      const kinds = eventKinds.filter((kind) =>
        events.some((event) => event.kind === kind || countsAs(event) === kind),
      );
      const buttons = kinds.map((kind) =>
        make(
          'button',
          { type: 'button', class: 'choice', value: kind, 'aria-pressed': String(shown.has(kind)) },
          kindMark(kind),
          `${upperFirst(kindWords[kind])} `,
          make('span', { class: 'count' }, events.filter((event) => countsAs(event) === kind).length),
        ),
      );
      for (const button of buttons)
        listen(button, {
          click: () => {
            const kind = button.value as EventKind;
            if (!shown.delete(kind)) shown.add(kind);
            button.setAttribute('aria-pressed', String(shown.has(kind)));
            changed();
          },
        });
      fill(element, ...buttons);
      buttons.find((button) => button.value === focused)?.focus();
    },
  };
}

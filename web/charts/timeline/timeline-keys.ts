import { listen } from '../../dom/make.ts';
import type { ReadingLine } from './reading-line.ts';
import type { ViewWindow } from './view-window.ts';

/** The keys of the timeline in words, for its name. */
export const keysInWords =
  'Left and right arrows move the reading line, plus and minus zoom, Page Up and Page Down move along, comma and full stop go from event to event, Enter opens the nearest event or else picks the moment, Escape leads back from there.';

interface KeysPlan {
  readonly view: ViewWindow;
  readonly line: ReadingLine;
  readonly durationS: number;
  /** Comes closer by a factor. */
  readonly zoom: (factor: number) => void;
  readonly openAtLine: () => void;
}

/** Lets the timeline be read and moved with the keyboard alone. */
export function listenToKeys(plot: HTMLElement, { view, line, durationS, zoom, openAtLine }: KeysPlan): void {
  const closer = (): void => zoom(1.6);
  const keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => line.step(-1),
    ArrowRight: () => line.step(1),
    PageUp: () => view.move(-0.8),
    PageDown: () => view.move(0.8),
    Home: () => line.bring(0),
    End: () => line.bring(durationS),
    '+': closer,
    '=': closer,
    '-': () => zoom(1 / 1.6),
    '0': () => view.showWhole(),
    ',': () => line.toEvent(-1),
    '.': () => line.toEvent(1),
    Enter: openAtLine,
  };
  listen(plot, {
    keydown: (event) => {
      const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : keys[event.key];
      if (!act) return;
      event.preventDefault();
      act();
    },
  });
}

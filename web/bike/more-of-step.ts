import { parameterTitle } from '../../src/adjustments/parameter-words.ts';
import { listen, make } from '../dom/make.ts';

/** What is left to be logged of a step of which a part was: it survives that the step is no longer shown. */
export interface MoreOfStep {
  readonly parts: readonly string[];
  /** When the part before it was done. */
  readonly at: string;
}

const KEY = 'more-of-step';

/** Keeps what is left of a step; forgets it where nothing is. */
export function keepMore(picks: Map<string, string>, more: MoreOfStep): void {
  if (more.parts.length > 0) picks.set(KEY, JSON.stringify(more));
  else picks.delete(KEY);
}

/** What is left of a step that was begun; null where nothing is. */
export function moreLeft(picks: ReadonlyMap<string, string>): MoreOfStep | null {
  const kept = picks.get(KEY);
  return kept === undefined ? null : (JSON.parse(kept) as MoreOfStep);
}

/** Offers the parts of a step that are not logged yet, one after the other. `open` is told which; null: that was all. */
export function moreOfStep({ parts }: MoreOfStep, open: (part: string | null) => void): HTMLElement {
  const button = (words: string, look: string | null, part: string | null): HTMLElement =>
    listen(make('button', { type: 'button', class: look, 'data-keep': `more-${part}` }, words), {
      click: () => open(part),
    });
  return make(
    'div',
    { class: 'panel more-of-step', role: 'group', 'aria-label': 'More of the step' },
    make('p', {}, 'Logged. The step names more: log what of it was done too, also what was looked at and found right.'),
    make(
      'div',
      { class: 'row' },
      ...parts.map((part) => button(parameterTitle(part), null, part)),
      button('That was all', 'plain', null),
    ),
  );
}

import { listen, make } from '../dom/make.ts';
import { type IconName, icon } from './icons.ts';

interface IconButtonPlan {
  readonly name: IconName;
  /** What it does, for a screen reader. */
  readonly words: string;
  /** Name under which it keeps the focus when its part of the page is drawn again, see `keepingFocus`. */
  readonly keep?: string;
  readonly click: () => void;
}

/** A small button that shows a picture alone. */
export const iconButton = ({ name, words, keep, click }: IconButtonPlan): HTMLButtonElement =>
  listen(
    make(
      'button',
      { type: 'button', class: 'plain small', 'data-keep': keep },
      icon(name),
      make('span', { class: 'out-of-sight' }, words),
    ),
    { click },
  );

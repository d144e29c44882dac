import type { ReadFile } from '../api/answers.ts';
import { make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';

/** What was understood of each file and what was not, with a sign and a word for each; null without files. */
export function understoodList(files: readonly ReadFile[]): HTMLElement | null {
  if (files.length === 0) return null;
  const line = (fits: boolean, text: string): HTMLElement =>
    make(
      'li',
      { class: fits ? 'is-understood' : 'is-not-understood' },
      icon(fits ? 'tick' : 'cross'),
      make('span', { class: 'out-of-sight' }, fits ? 'Understood: ' : 'Not understood: '),
      text,
    );
  return make(
    'ul',
    { class: 'understood' },
    ...files.map(({ name, understood, notUnderstood }) =>
      make(
        'li',
        {},
        make('h3', { class: 'file-name' }, name),
        make(
          'ul',
          {},
          ...understood.map((text) => line(true, text)),
          ...notUnderstood.map((text) => line(false, text)),
        ),
      ),
    ),
  );
}

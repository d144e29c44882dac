import { fill, make } from '../dom/make.ts';
import { namePage } from '../page/name-page.ts';
import type { View } from '../router/router.ts';
import { meanings } from './meanings.ts';

/** What the words of the page and of the report mean. */
export const meaningsView: View = ({ place }) => {
  namePage('What the words mean');
  fill(
    place,
    make(
      'div',
      { class: 'view-head' },
      make(
        'div',
        {},
        make('h1', { tabindex: -1 }, 'What the words mean'),
        make('p', { class: 'lead' }, 'The trade’s words, and how this report uses them.'),
      ),
    ),
    ...meanings.map(({ title, words }, i) =>
      make(
        'section',
        { class: 'panel meanings', 'aria-labelledby': `meanings-${i}` },
        make('h2', { id: `meanings-${i}` }, title),
        make('dl', {}, ...words.flatMap(({ word, meaning }) => [make('dt', {}, word), make('dd', {}, meaning)])),
      ),
    ),
  );
};

import { fill, make } from '../dom/make.ts';
import { namePage } from '../page/name-page.ts';
import { viewHead } from '../page/view-head.ts';
import type { View } from '../router/router.ts';
import { meanings } from './meanings.ts';

/** What the words of the page and of the report mean. */
export const meaningsView: View = ({ place }) => {
  namePage('What the words mean');
  fill(
    place,
    viewHead('What the words mean', 'The trade’s words, and how this report uses them.'),
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

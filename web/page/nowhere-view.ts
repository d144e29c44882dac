import { fill, make } from '../dom/make.ts';
import type { View } from '../router/router.ts';
import { namePage } from './name-page.ts';

/** Shown for an address that leads nowhere. */
export const nowhereView: View = ({ place }) => {
  namePage('Nothing here');
  fill(
    place,
    make(
      'section',
      { class: 'notice' },
      make('h1', {}, 'Nothing lives at this address'),
      make('p', {}, 'The bike or ride may have been removed, or the address was cut short.'),
      make('p', { class: 'row' }, make('a', { class: 'button', href: '/' }, 'All bikes')),
    ),
  );
};

import { make } from '../dom/make.ts';

/** Head of a view: its title, a sentence on what it is for, and the way that stands beside them, if there is one. */
export const viewHead = (title: string, lead: string, way?: HTMLElement): HTMLElement =>
  make(
    'div',
    { class: 'view-head' },
    make('div', {}, make('h1', { tabindex: -1 }, title), make('p', { class: 'lead' }, lead)),
    way,
  );

import { make } from '../dom/make.ts';

/** Sentences one below the other, each with a point before it. */
export const points = (sentences: readonly string[]): HTMLElement =>
  make('ul', { class: 'points' }, ...sentences.map((sentence) => make('li', {}, sentence)));

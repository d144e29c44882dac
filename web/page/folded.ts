import { make } from '../dom/make.ts';

/** A list of more than so many is folded away under what it holds. */
const AT_ONCE = 8;

/** Whether a list is long enough to be folded. */
export const isLong = ({ length }: readonly unknown[]): boolean => length > AT_ONCE;

/** A list folded away under a line that says what is in it; where it is drawn anew, it stays as it was left. */
export const folded = (keep: string, words: string, ...list: HTMLElement[]): HTMLDetailsElement =>
  make('details', { class: 'folded', 'data-keep': keep }, make('summary', {}, words), ...list);

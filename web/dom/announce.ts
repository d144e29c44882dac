import { make } from './make.ts';

let region: HTMLElement | null = null;

/** The place a screen reader listens to; stands once in the page. */
export function announcer(): HTMLElement {
  region ??= make('div', { class: 'out-of-sight', role: 'status', 'aria-live': 'polite' });
  return region;
}

/** Says `text` to a screen reader without moving the focus. */
export function announce(text: string): void {
  const place = announcer();
  if (place.textContent === text) place.textContent = '';
  place.textContent = text;
}

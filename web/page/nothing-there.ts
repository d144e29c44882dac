import { ApiError } from '../api/api-error.ts';
import { fill, make } from '../dom/make.ts';

/** What is said to be missing where an address leads to nothing, by how its loading was announced. */
const missing: Readonly<Record<string, string>> = {
  'the bike': 'This bike is not here',
  'the sheet': 'This bike is not here',
  'the ride': 'This ride is not here',
};

/** Whether the server says that there is no such thing, and so will the next time. */
export const isNotHere = (error: unknown): boolean => error instanceof ApiError && error.status === 404;

/** For an address of something that is not there, or no more. */
export const nothingThere = (what: string): HTMLElement =>
  make(
    'section',
    { class: 'notice is-error', role: 'alert' },
    make('h1', { tabindex: -1 }, missing[what] ?? 'Not here'),
    make(
      'p',
      {},
      'It was removed, perhaps in another window, or the address is not whole. The list shows every bike that is here.',
    ),
    make('p', { class: 'row' }, make('a', { class: 'button', href: '/' }, 'All bikes')),
  );

/** Draws again what is shown; where it was removed meanwhile, that is said in its place. */
export async function unlessRemoved(place: HTMLElement, what: string, refresh: () => Promise<unknown>): Promise<void> {
  try {
    await refresh();
  } catch (error) {
    if (!isNotHere(error)) throw error;
    fill(place, nothingThere(what));
  }
}

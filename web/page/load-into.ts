import { ApiError } from '../api/api-error.ts';
import { fill, listen, make } from '../dom/make.ts';
import { isNotHere, nothingThere } from './nothing-there.ts';

function errorPanel(what: string, error: unknown, again: () => void): HTMLElement {
  const known = error instanceof ApiError;
  if (!known) console.error(error);
  if (isNotHere(error)) return nothingThere(what);
  // the server itself asks for the token, at whatever address of the page
  const [words, click] =
    known && error.status === 401 ? ['Give the token', () => location.reload()] : ['Try again', again];
  const text = known ? error.message : 'Something in the page went wrong. Loading it again may help.';
  return make(
    'section',
    { class: 'notice is-error', role: 'alert' },
    make('h1', { tabindex: -1 }, 'This could not be shown'),
    make('p', {}, text),
    make(
      'p',
      { class: 'row' },
      listen(make('button', { type: 'button' }, words), { click }),
      make('a', { class: 'button plain', href: '/' }, 'All bikes'),
    ),
  );
}

/** Bars where the contents will stand, shown only when the answer takes longer than a blink (see the style sheet). */
function waiting(what: string): HTMLElement {
  return make(
    'div',
    { class: 'waiting', role: 'status' },
    make('p', {}, `Loading ${what} …`),
    make('div', { class: 'waiting-bar is-wide' }),
    make('div', { class: 'waiting-bar' }),
    make('div', { class: 'waiting-block' }),
  );
}

/** Shows that `what` is being loaded, then what `show` draws, or the error with a way to try again. */
export function loadInto<Answer>(
  place: HTMLElement,
  what: string,
  signal: AbortSignal,
  load: (signal: AbortSignal) => Promise<Answer>,
  show: (answer: Answer) => void,
): void {
  fill(place, waiting(what));
  place.setAttribute('aria-busy', 'true');
  const done = (): void => place.removeAttribute('aria-busy');
  load(signal)
    .then((answer) => {
      if (signal.aborted) return;
      place.replaceChildren();
      show(answer);
      done();
    })
    .catch((error: unknown) => {
      if (signal.aborted) return;
      done();
      fill(
        place,
        errorPanel(what, error, () => loadInto(place, what, signal, load, show)),
      );
    });
}

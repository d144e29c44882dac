import { make } from '../dom/make.ts';
import { iconButton } from './icon-button.ts';

/** Slips lie one above the other at the foot of the window, the newest last. */
let slips: HTMLElement | null = null;

/** Shows a failure at the foot of the window until it is closed by hand, and says it to a screen reader. */
function tellFailure(error: unknown): void {
  const text = error instanceof Error ? error.message : String(error);
  slips ??= make('div', { class: 'slips' });
  if (!slips.isConnected) document.body.append(slips);
  // The same failure again is said again, but lies there once.
  for (const old of [...slips.children]) if (old.firstChild?.textContent === text) old.remove();
  const before = document.activeElement;
  const close = (): void => {
    const hadFocus = slip.contains(document.activeElement);
    slip.remove();
    if (hadFocus && before instanceof HTMLElement) before.focus();
  };
  const slip = make(
    'div',
    { class: 'slip' },
    make('p', { role: 'alert' }, text),
    iconButton({ name: 'cross', words: 'Close this message', click: close }),
  );
  slips.append(slip);
}

/** Runs `work`; a failure is shown, not thrown. Resolves true where it went well. */
export async function attempt(work: () => Promise<unknown>): Promise<boolean> {
  try {
    await work();
    return true;
  } catch (error) {
    if (!(error instanceof DOMException && error.name === 'AbortError')) tellFailure(error);
    return false;
  }
}

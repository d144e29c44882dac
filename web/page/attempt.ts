import { make } from '../dom/make.ts';

const shownMs = 9000;

/** Shows a failure at the foot of the window for a while, and says it to a screen reader. */
export function tellFailure(error: unknown): void {
  const text = error instanceof Error ? error.message : String(error);
  const slip = make('div', { class: 'slip', role: 'alert' }, text);
  document.body.append(slip);
  setTimeout(() => slip.remove(), shownMs);
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

/** Light or dark colours. */
export type Theme = 'light' | 'dark';
const key = 'cogwright-theme';

/** The reader's own choice; null: as the system has it. */
function chosen(): Theme | null {
  try {
    const value = localStorage.getItem(key);
    return value === 'light' || value === 'dark' ? value : null;
  } catch {
    return null;
  }
}

const systemTheme = (): Theme => (matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light');

/** The theme that is seen now, by choice or by the system. */
export const currentTheme = (): Theme => chosen() ?? systemTheme();

/** Puts the chosen theme on the document; called before the first view. */
export function applyTheme(): void {
  const theme = chosen();
  if (theme) document.documentElement.dataset.theme = theme;
  else delete document.documentElement.dataset.theme;
}

/** Chooses a theme. Choosing what the system has goes back to following the system. */
export function chooseTheme(theme: Theme): void {
  try {
    if (theme === systemTheme()) localStorage.removeItem(key);
    else localStorage.setItem(key, theme);
  } catch {
    // Storage is closed to us (a private window): the choice then lasts until the page is left.
    document.documentElement.dataset.theme = theme;
    dispatchEvent(new Event('cogwright:theme'));
    return;
  }
  applyTheme();
  dispatchEvent(new Event('cogwright:theme'));
}

/** Calls `listener` whenever colours change, by choice or by the system, until `signal` aborts. */
export function onThemeChange(listener: () => void, signal: AbortSignal): void {
  addEventListener('cogwright:theme', listener, { signal });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', listener, { signal });
}

import { announcer } from '../dom/announce.ts';
import { listen, make } from '../dom/make.ts';
import { icon } from './icons.ts';
import { chooseTheme, currentTheme } from './theme.ts';
import { wordmark } from './wordmark.ts';

const sections = [
  { href: '/', text: 'Bikes', holds: (path: string) => path === '/' || /^\/(bikes|rides|enter|workshop)/.test(path) },
  { href: '/add', text: 'Add rides', holds: (path: string) => path === '/add' },
  { href: '/data', text: 'Your data', holds: (path: string) => path === '/data' },
] as const;

function themeSwitch(): HTMLButtonElement {
  const button = make('button', { type: 'button', class: 'plain theme-switch' });
  const show = (): void => {
    const next = currentTheme() === 'dark' ? 'light' : 'dark';
    button.replaceChildren(
      icon(next === 'dark' ? 'moon' : 'sun'),
      make('span', {}, next === 'dark' ? 'Dark' : 'Light'),
    );
    button.setAttribute('aria-label', `Switch to ${next} colours`);
  };
  listen(button, {
    click: () => {
      chooseTheme(currentTheme() === 'dark' ? 'light' : 'dark');
      show();
    },
  });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', show);
  show();
  return button;
}

/** The frame around every view: skip link, head with the sections, the view's place, foot. */
export interface Shell {
  readonly place: HTMLElement;
  /** Marks the section that the path belongs to. */
  mark(path: string): void;
}

/** Builds the frame into the document's body. */
export function makeShell(): Shell {
  const links = sections.map((section) => make('a', { href: section.href }, section.text));
  const place = make('main', { id: 'view', tabindex: -1 });
  const foot = make(
    'footer',
    { class: 'foot' },
    make(
      'p',
      {},
      'cogwright reads logs on this machine and sends nothing anywhere. It reports likelihoods: it has not seen your bike. ',
      make('a', { href: '/words' }, 'What the words mean'),
    ),
  );
  document.body.append(
    make('a', { class: 'skip', href: '#view' }, 'Skip to the contents'),
    make('header', { class: 'head' }, wordmark(), make('nav', { 'aria-label': 'Sections' }, ...links), themeSwitch()),
    place,
    foot,
    announcer(),
  );
  return {
    place,
    mark: (path) =>
      sections.forEach((section, i) => {
        if (section.holds(path)) links[i].setAttribute('aria-current', 'page');
        else links[i].removeAttribute('aria-current');
      }),
  };
}

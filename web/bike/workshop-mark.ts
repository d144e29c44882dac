import { putBackInUse } from '../api/bikes.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { attempt } from '../page/attempt.ts';
import { icon } from '../page/icons.ts';
import { setAsideSince } from '../words/set-aside-words.ts';
import type { BikePage } from './bike-page.ts';
import { workshopForm } from './workshop-form.ts';

/** The button that opens the form, and where form and mark stand. */
interface WorkshopMark {
  /** Null where the bike is set aside already. */
  readonly button: HTMLButtonElement | null;
  readonly place: HTMLElement;
}

/** That the bike is set aside for the workshop, with a way to change what is said of it and to take it back; else a way to set it aside. */
export function workshopMark({ bike, refresh }: BikePage): WorkshopMark {
  const place = make('div', { class: 'workshop-mark' });
  const open = (): void => {
    fill(place, workshopForm({ bike, saved, cancelled }));
    if (button) button.hidden = true;
    place.querySelector('input')?.focus();
  };
  const button = bike.workshopMark
    ? null
    : listen(
        make(
          'button',
          { type: 'button', class: 'plain', 'data-keep': 'set-aside' },
          icon('tag'),
          'Set aside for the workshop',
        ),
        { click: open },
      );
  const show = (): void => {
    fill(place, bike.workshopMark && markPanel(bike.workshopMark, open, () => void attempt(release)));
    if (button) button.hidden = false;
  };
  const cancelled = (): void => {
    show();
    (button ?? place.querySelector<HTMLElement>('[data-keep="change-mark"]'))?.focus();
  };
  const changed = async (said: string): Promise<void> => {
    show();
    announce(said);
    await refresh();
    document.querySelector<HTMLElement>('.view-head h1')?.focus({ preventScroll: true });
  };
  const saved = (): void => void attempt(() => changed('Set aside for the workshop.'));
  const release = async (): Promise<void> => {
    await putBackInUse(bike.id);
    await changed('Back in use.');
  };
  show();
  return { button, place };
}

/** What is said of a bike that is set aside. */
function markPanel(
  mark: NonNullable<BikePage['bike']['workshopMark']>,
  change: () => void,
  release: () => void,
): HTMLElement {
  return make(
    'section',
    { class: 'panel set-aside', 'aria-label': 'Set aside for the workshop' },
    make(
      'p',
      {},
      icon('tag'),
      make('strong', {}, setAsideSince(mark)),
      mark.note !== '' && make('span', { class: 'set-aside-note' }, mark.note),
    ),
    make(
      'div',
      { class: 'row' },
      listen(make('button', { type: 'button', 'data-keep': 'release' }, icon('tick'), 'Back in use'), {
        click: release,
      }),
      listen(make('button', { type: 'button', class: 'plain', 'data-keep': 'change-mark' }, icon('edit'), 'Change'), {
        click: change,
      }),
    ),
  );
}

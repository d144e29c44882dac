import { counted } from '../../src/numeric/counted.ts';
import { make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { day } from '../words/dates.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import type { BikePage } from './bike-page.ts';
import { workshopMark } from './workshop-mark.ts';

/** Name of the bike, what it is, what can be done with it, and whether it is set aside for the workshop. */
export function bikeHead(page: BikePage): HTMLElement {
  const { button, place } = workshopMark(page);
  return make('div', { class: 'bike-top' }, headOf(page, button), place);
}

function headOf({ bike }: BikePage, setAside: HTMLElement | null): HTMLElement {
  const ridden = bike.lastRideAt ? `, last on ${day(bike.lastRideAt)}` : '';
  return make(
    'div',
    { class: 'view-head' },
    make(
      'div',
      {},
      make('a', { class: 'crumb', href: '/', 'data-keep': 'crumb' }, icon('back'), 'All bikes'),
      make('h1', { tabindex: -1 }, bike.bike.name),
      make('p', { class: 'quiet' }, `${drivetrainLine(bike.bike)} · ${counted(bike.rides, 'ride')}${ridden}`),
      bike.sample &&
        make('p', { class: 'quiet' }, 'A sample that came with the program: an invented bike with invented rides.'),
      bike.bikeSource === 'guessed' &&
        make(
          'p',
          { class: 'quiet' },
          'The drivetrain was guessed from the rides. ',
          make('a', { href: '#drivetrain' }, 'Look it over'),
          '.',
        ),
      (bike.pending > 0 || bike.staleReason) &&
        make(
          'p',
          { class: 'quiet is-working', role: 'status' },
          bike.staleReason ?? 'New rides are being worked through …',
        ),
    ),
    make(
      'div',
      { class: 'row' },
      make(
        'a',
        { class: 'button plain', href: `/bikes/${bike.id}/sheet`, 'data-keep': 'sheet' },
        icon('print'),
        'Service sheet',
      ),
      make('a', { class: 'button', href: `/add?bike=${bike.id}`, 'data-keep': 'add' }, icon('add'), 'Add rides'),
      setAside,
    ),
  );
}

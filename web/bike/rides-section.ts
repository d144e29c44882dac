import { counted } from '../../src/numeric/counted.ts';
import { evidenceLabels } from '../../src/report/words/event-words.ts';
import type { RideSummary } from '../api/answers.ts';
import { removeRide } from '../api/rides.ts';
import { announce } from '../dom/announce.ts';
import { make } from '../dom/make.ts';
import { ask } from '../page/ask.ts';
import { attempt } from '../page/attempt.ts';
import { iconButton } from '../page/icon-button.ts';
import { dayAndTime } from '../words/dates.ts';
import { duration } from '../words/numbers.ts';
import type { BikePage } from './bike-page.ts';

const rideName = (ride: RideSummary): string => (ride.start ? dayAndTime(ride.start) : ride.file);

function standing(ride: RideSummary): string {
  if (ride.status === 'failed') return ride.error?.message ?? 'Could not be read.';
  if (ride.status === 'queued') return 'Waiting';
  if (ride.status === 'analysing') return 'Being worked through …';
  return ride.evidence ? evidenceLabels[ride.evidence] : '';
}

function row(ride: RideSummary, remove: (ride: RideSummary) => void): HTMLElement {
  const { counts } = ride;
  const number = (value: number | undefined): HTMLElement => make('td', { class: 'number' }, value ?? '–');
  const trouble = counts ? counts.late + counts.missed + counts.overshot : undefined;
  return make(
    'tr',
    {},
    make(
      'th',
      { scope: 'row' },
      ride.status === 'failed'
        ? rideName(ride)
        : make('a', { href: `/rides/${ride.id}`, 'data-keep': `ride-${ride.id}` }, rideName(ride)),
      make('span', { class: 'quiet file-name' }, ride.file),
      counts && make('span', { class: 'only-narrow' }, `${counted(counts.shifts, 'shift')}, ${trouble} in trouble`),
    ),
    make('td', { class: 'number' }, duration(ride.durationS)),
    number(counts?.shifts),
    number(trouble),
    number(counts?.ghostShifts),
    number(counts?.chainDrops),
    make('td', { class: ride.status === 'failed' ? 'fault' : null }, standing(ride)),
    make(
      'td',
      { class: 'tools' },
      iconButton({
        name: 'remove',
        words: `Remove the ride of ${rideName(ride)}`,
        keep: `remove-ride-${ride.id}`,
        click: () => remove(ride),
      }),
    ),
  );
}

const columns: readonly { readonly head: string; readonly isNumber: boolean }[] = [
  { head: 'Ride', isNumber: false },
  { head: 'Length', isNumber: true },
  { head: 'Shifts', isNumber: true },
  { head: 'In trouble', isNumber: true },
  { head: 'Unasked', isNumber: true },
  { head: 'Chain off', isNumber: true },
  { head: 'Records', isNumber: false },
];

function rideTable(rides: readonly RideSummary[], remove: (ride: RideSummary) => void): HTMLElement {
  const heads = columns.map(({ head, isNumber }) =>
    make('th', { scope: 'col', class: isNumber ? 'number' : null }, head),
  );
  return make(
    'div',
    { class: 'panel scrolls is-tall', tabindex: 0, role: 'region', 'aria-label': 'Rides' },
    make(
      'table',
      { class: 'rides' },
      make('thead', {}, make('tr', {}, ...heads, make('td', { class: 'tools' }))),
      make('tbody', {}, ...rides.map((ride) => row(ride, remove))),
    ),
  );
}

/** The bike's rides, newest first. */
export function ridesSection({ rides, allRides, refresh }: BikePage): HTMLElement {
  const remove = async (ride: RideSummary): Promise<void> => {
    const yes = await ask(
      'Remove this ride?',
      `${ride.file} is taken out of the store, and the verdict is worked out without it. Your own copy of the file is not touched.`,
      'Remove it',
    );
    if (!yes) return;
    await removeRide(ride.id);
    announce('Ride removed');
    await refresh();
  };
  return make(
    'section',
    { 'aria-labelledby': 'rides' },
    make('h2', { id: 'rides' }, 'Rides'),
    allRides > rides.length &&
      make(
        'p',
        { class: 'quiet' },
        `The newest ${rides.length} of ${counted(allRides, 'ride')}; the verdict rests on all of them.`,
      ),
    rides.length === 0
      ? make('p', { class: 'quiet' }, 'No ride yet.')
      : rideTable(rides, (ride) => void attempt(() => remove(ride))),
  );
}

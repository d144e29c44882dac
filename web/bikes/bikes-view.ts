import type { BikeSummary } from '../api/answers.ts';
import { listBikes } from '../api/bikes.ts';
import { onChange } from '../api/changes.ts';
import { keepingFocus } from '../dom/keeping-focus.ts';
import { fill, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { soon } from '../page/soon.ts';
import type { View } from '../router/router.ts';
import { bikeRow } from './bike-row.ts';
import { fleetSentence } from './fleet-sentence.ts';
import { makeRowFilter } from './row-filter.ts';
import { inOrder, leadOf } from './row-order.ts';
import { ALL_ARE_SAMPLES, allAreSamples, samplesNote } from './samples-note.ts';

/** The ways to more bikes. */
const ways = (...more: HTMLElement[]): HTMLElement =>
  make(
    'div',
    { class: 'row' },
    ...more,
    make('a', { class: 'button plain', href: '/enter' }, 'Enter a bike'),
    make('a', { class: 'button', href: '/add' }, icon('add'), 'Add rides'),
  );

const nobody = (): HTMLElement =>
  make(
    'section',
    { class: 'notice' },
    make('h1', { tabindex: -1 }, 'No bike here yet'),
    make(
      'p',
      {},
      'Add a ride log with gear changes and cadence (FIT, TCX, GPX or CSV). cogwright works out the drivetrain, judges each shift and says whether the rear derailleur wants attention.',
    ),
    ways(),
  );

/** The share of trouble that fills a row's chart, in whole tenths: the same for all rows, so that they can be compared. */
const commonTop = (bikes: readonly BikeSummary[]): number => {
  const points = bikes.flatMap((bike) => bike.trend);
  const most = Math.max(0, ...points.map(({ high, troubleRate }) => Math.min(high, (troubleRate ?? 0) * 2 + 0.1)));
  return Math.min(1, Math.max(0.1, Math.ceil(most * 10) / 10));
};

/** All bikes, the one that needs attention most first. */
export const bikesView: View = ({ place, query, signal }) => {
  namePage('All bikes');
  const filter = makeRowFilter(query, () => draw(shown));
  const heading = make('h1', { tabindex: -1 });
  const lead = make('p', { class: 'lead' });
  const onPaper = make('a', { class: 'button plain' }, icon('print'), 'Workshop list');
  const list = make('ul', { class: 'rack' });
  const samples = make('div', {});
  const unfolded = new Set<string>();
  let shown: readonly BikeSummary[] = [];

  const draw = (bikes: readonly BikeSummary[]): void => {
    shown = bikes;
    if (bikes.length === 0) {
      fill(place, nobody());
      return;
    }
    heading.textContent = fleetSentence(bikes);
    const top = commonTop(bikes);
    const order = filter.order(bikes.length);
    lead.textContent = allAreSamples(bikes) ? ALL_ARE_SAMPLES : leadOf(order, bikes);
    fill(samples, samplesNote(bikes, afterRemoval));
    onPaper.hidden = bikes.length < 2;
    onPaper.setAttribute('href', order === 'need' ? '/workshop' : `/workshop?order=${order}`);
    const rows = inOrder(bikes, order).map((bike) => ({ bike, element: bikeRow(bike, top, unfolded) }));
    keepingFocus(list, () => {
      fill(list, ...rows.map((row) => row.element));
      filter.show(rows);
    });
    if (heading.isConnected) return;
    fill(
      place,
      make('div', { class: 'view-head' }, make('div', {}, heading, lead), ways(onPaper)),
      filter.element,
      list,
      samples,
    );
  };
  const afterRemoval = async (): Promise<void> => {
    draw((await listBikes(signal)).bikes);
    place.querySelector<HTMLElement>('h1')?.focus();
  };
  loadInto(place, 'all bikes', signal, listBikes, ({ bikes }) => draw(bikes));
  const refresh = soon(() => listBikes(signal).then(({ bikes }) => draw(bikes)), signal);
  onChange(refresh, signal);
};

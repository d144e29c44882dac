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
import { samplesApart } from '../words/samples-apart.ts';
import { bikeRow } from './bike-row.ts';
import { fleetSentence } from './fleet-sentence.ts';
import { makeRowFilter } from './row-filter.ts';
import { inOrder, leadOf, type RowOrder } from './row-order.ts';
import { samplesSection } from './samples-note.ts';

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

/** What stands over the list. */
interface Head {
  readonly heading: HTMLElement;
  readonly lead: HTMLElement;
  readonly onPaper: HTMLElement;
}

const makeHead = (): Head => ({
  heading: make('h1', { tabindex: -1 }),
  lead: make('p', { class: 'lead' }),
  onPaper: make('a', { class: 'button plain' }, icon('print'), 'Workshop list'),
});

/** Says how the reader's own bikes stand; of the samples only that they are none of these. */
function tellHead(
  { heading, lead, onPaper }: Head,
  { own, samples }: ReturnType<typeof samplesApart<BikeSummary>>,
  order: RowOrder,
): void {
  heading.textContent = own.length > 0 ? fleetSentence(own) : 'No bike of your own yet';
  lead.textContent =
    own.length > 0 ? leadOf(order, own) : 'Add your own rides to begin, or look at the sample bikes below.';
  onPaper.hidden = (own.length || samples.length) < 2;
  onPaper.setAttribute('href', order === 'need' ? '/workshop' : `/workshop?order=${order}`);
}

/** All bikes, the one that needs attention most first, and the samples apart. */
export const bikesView: View = ({ place, query, signal }) => {
  namePage('All bikes');
  const filter = makeRowFilter(query, () => draw(shown));
  const head = makeHead();
  const list = make('ul', { class: 'rack' });
  const sampleList = make('ul', { class: 'rack' });
  const apart = make('div', {});
  const lists = make('div', { class: 'racks' }, list, apart);
  const unfolded = new Set<string>();
  let shown: readonly BikeSummary[] = [];

  const draw = (bikes: readonly BikeSummary[]): void => {
    shown = bikes;
    if (bikes.length === 0) {
      fill(place, nobody());
      return;
    }
    const { own, samples } = samplesApart(bikes);
    const order = filter.order(own.length);
    const rowOf = rowMaker(bikes, unfolded);
    const rows = inOrder(own, order).map((bike) => ({ bike, element: rowOf(bike) }));
    tellHead(head, { own, samples }, order);
    keepingFocus(lists, () => {
      fill(list, ...rows.map(({ element }) => element));
      list.hidden = own.length === 0;
      filter.show(rows);
      fill(sampleList, ...samples.map(rowOf));
      fill(apart, samplesSection(samples, sampleList, afterRemoval));
    });
    if (head.heading.isConnected) return;
    fill(
      place,
      make('div', { class: 'view-head' }, make('div', {}, head.heading, head.lead), ways(head.onPaper)),
      filter.element,
      lists,
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

/** Makes the row of a bike, its chart as high as those of all others. */
function rowMaker(bikes: readonly BikeSummary[], unfolded: Set<string>): (bike: BikeSummary) => HTMLElement {
  const top = commonTop(bikes);
  return (bike) => bikeRow(bike, top, unfolded);
}

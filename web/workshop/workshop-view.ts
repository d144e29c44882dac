import { parameterTitle } from '../../src/adjustments/parameter-words.ts';
import { counted } from '../../src/numeric/counted.ts';
import { figure } from '../../src/numeric/figure.ts';
import type { BikeSummary } from '../api/answers.ts';
import { listBikes } from '../api/bikes.ts';
import { onChange } from '../api/changes.ts';
import { needsHands } from '../bikes/needs-hands.ts';
import { inOrder, leadOf, orderOf, type RowOrder } from '../bikes/row-order.ts';
import { datedIn, rowReason } from '../bikes/row-reason.ts';
import { chartTool } from '../charts/chart-tool.ts';
import { saveFile } from '../charts/save-file.ts';
import { tableAsCsv } from '../charts/table-as-csv.ts';
import { keepingFocus } from '../dom/keeping-focus.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { soon } from '../page/soon.ts';
import { stateMark } from '../page/state-mark.ts';
import { noteQuery } from '../router/note-query.ts';
import type { View } from '../router/router.ts';
import { dayAndTime } from '../words/dates.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import { looksFirst } from '../words/looks-first.ts';
import { notRiddenSince } from '../words/not-ridden-since.ts';
import { percentFigure } from '../words/numbers.ts';
import { lastRideWords } from '../words/ridden-words.ts';
import { samplesApart } from '../words/samples-apart.ts';
import { isSetAside, setAsideWords } from '../words/set-aside-words.ts';
import { skippedWords } from '../words/skipped-words.ts';
import { staleFigures } from '../words/stale-words.ts';
import { standingKey, standingOf, stateLabel } from '../words/state-words.ts';
import { ownZone } from '../words/time-zone.ts';
import { worstCogWords } from '../words/worst-cog-words.ts';
import { bikesTable } from './bikes-table.ts';

/** The trouble of a bike's shifts in the room of a cell: of all, and of the cog that stands out. */
function troubleWords(state: BikeSummary['state']): string {
  const { troubleRate, worstCog, judgedShifts } = state;
  if (troubleRate === null) return 'No shift judged';
  const skipped = skippedWords(state);
  const all = `${percentFigure(troubleRate)} of ${figure(judgedShifts)}${skipped ? `; ${skipped}` : ''}`;
  return worstCog ? `${all}; worst: ${worstCogWords(worstCog)}` : all;
}

/** The first step of what to do, led by the part that it is about. */
const workWords = (summary: BikeSummary): HTMLElement | null =>
  summary.work === null
    ? null
    : make(
        'span',
        { class: 'workshop-work' },
        summary.workPart !== null && [make('strong', {}, `${parameterTitle(summary.workPart)}:`), ' '],
        datedIn(summary, summary.work),
      );

/** Whether there is something to do and to tick off: what its keeper set it aside for, or its state asks for; not on a bike that shifts well, nor on one of which too little is known. */
const asksForWork = ({ state, workshopMark }: BikeSummary): boolean =>
  isSetAside({ workshopMark }) || state.word === 'service' || state.word === 'watch' || looksFirst(state);

function row(summary: BikeSummary): HTMLElement {
  const { bike, state } = summary;
  const stale = staleFigures(summary);
  const workedSince = notRiddenSince(summary);
  const aside = setAsideWords(summary);
  const cell = (label: string, ...words: (HTMLElement | string | null | false)[]): HTMLElement =>
    make('td', { 'data-label': label }, ...words);
  return make(
    'tr',
    { class: `is-${standingKey(state)}` },
    make(
      'th',
      { scope: 'row' },
      make('a', { href: `/bikes/${summary.id}` }, bike.name),
      make('small', {}, drivetrainLine(bike)),
    ),
    make('td', { class: 'workshop-state' }, stateMark(standingOf(state)), make('span', {}, stateLabel(state))),
    cell(
      'Why, and what to do first',
      aside !== null && make('strong', { class: 'workshop-aside' }, aside),
      make('span', {}, rowReason(summary) ?? ''),
      stale !== null && make('small', { class: 'workshop-stale' }, stale),
      workWords(summary),
    ),
    cell('Shifts in trouble', troubleWords(state)),
    cell('Last ride', lastRideWords(summary), workedSince && make('small', { class: 'workshop-worked' }, workedSince)),
    make('td', { class: asksForWork(summary) ? 'workshop-done is-open' : 'workshop-done' }),
  );
}

const table = (bikes: readonly BikeSummary[]): HTMLElement =>
  make(
    'table',
    { class: 'workshop-table' },
    make(
      'thead',
      {},
      make(
        'tr',
        {},
        ...['Bike', 'State', 'Why, and what to do first', 'Shifts in trouble', 'Last ride', 'Done'].map((name) =>
          make('th', { scope: 'col' }, name),
        ),
      ),
    ),
    make('tbody', {}, ...bikes.map(row)),
  );

/** What is on the list, and how many bikes it leaves out. */
interface Listed {
  readonly bikes: readonly BikeSummary[];
  /** The bikes that it was picked from. */
  readonly all: number;
  /** Sample bikes that are left out. */
  readonly samples: number;
}

function listWords({ bikes, all, samples }: Listed): string {
  const kind = bikes.some(({ sample }) => sample) ? 'sample bike' : 'bike';
  const count =
    bikes.length === all
      ? counted(all, kind)
      : `Only what needs hands: ${figure(bikes.length)} of ${counted(all, kind)}`;
  return samples === 0 ? count : `${count}, without the ${counted(samples, 'sample bike')}`;
}

/** Ways back, to the printer and to a file, which are not printed. */
function tools(bikes: readonly BikeSummary[], query: URLSearchParams, choice: HTMLElement): HTMLElement {
  const save = (): void => saveFile('bikes.csv', 'text/csv', tableAsCsv(bikesTable(bikes)));
  return make(
    'div',
    { class: 'view-head not-printed' },
    make(
      'a',
      { class: 'crumb', href: query.size > 0 ? `/?${query}` : '/', 'data-keep': 'crumb' },
      icon('back'),
      'All bikes',
    ),
    make(
      'div',
      { class: 'row' },
      choice,
      chartTool('save', 'Save as CSV', save),
      listen(make('button', { type: 'button', 'data-keep': 'print' }, icon('print'), 'Print'), {
        click: () => print(),
      }),
    ),
  );
}

const sheet = (listed: Listed, order: RowOrder): HTMLElement =>
  make(
    'article',
    { class: 'sheet workshop' },
    make(
      'header',
      {},
      make('h1', { tabindex: -1 }, 'Workshop list'),
      make('p', {}, `${listWords(listed)}, ${dayAndTime(new Date().toISOString())}, ${ownZone()}.`),
      listed.bikes.length > 1 && make('p', {}, leadOf(order, listed.bikes)),
    ),
    table(listed.bikes),
    make(
      'p',
      { class: 'sheet-foot' },
      'Likelihoods from ride logs: nobody has looked at the bikes. The first step alone; all of them, with their cautions, stand on each bike’s own service sheet; the maker’s manual and a qualified mechanic come first.',
    ),
  );

/** All bikes on one sheet for the workshop, in the order of the list, to print or to save; the samples only where there is no other. */
export const workshopView: View = ({ place, query, signal }) => {
  namePage('Workshop list');
  let onlyHands = query.get('only') === 'hands';
  const show = ({ bikes }: { bikes: readonly BikeSummary[] }): void => {
    const order = orderOf(query.get('order'));
    const { own, samples } = samplesApart(bikes);
    // where there is nothing else they show what the list is like
    const ordered = inOrder(own.length > 0 ? own : samples, order);
    const listed = onlyHands ? ordered.filter(needsHands) : ordered;
    const choice = make(
      'button',
      { type: 'button', class: 'choice', 'aria-pressed': String(onlyHands), 'data-keep': 'only-hands' },
      'Only what needs hands',
    );
    listen(choice, {
      click: () => {
        onlyHands = !onlyHands;
        noteQuery({ only: onlyHands ? 'hands' : '' });
        show({ bikes });
        place.querySelector<HTMLElement>('[data-keep="only-hands"]')?.focus();
      },
    });
    keepingFocus(place, () =>
      fill(
        place,
        tools(listed, query, choice),
        sheet({ bikes: listed, all: ordered.length, samples: bikes.length - ordered.length }, order),
      ),
    );
  };
  loadInto(place, 'all bikes', signal, listBikes, show);
  const refreshSoon = soon(async () => show(await listBikes(signal)), signal);
  onChange(refreshSoon, signal);
};

import { adjustmentWords, parameterName } from '../../src/adjustments/parameter-words.ts';
import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { counted } from '../../src/numeric/counted.ts';
import { percent } from '../../src/numeric/percent.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import { showsNothing } from '../../src/report/shows-nothing.ts';
import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';
import { cautionsByPlace } from '../../src/report/words/cautions-by-place.ts';
import { NOTHING_TURNED } from '../../src/report/words/look-entries.ts';
import { stepIsAbout } from '../../src/report/words/step-is-about.ts';
import { stepList } from '../../src/report/words/step-list.ts';
import type { SheetData } from '../api/answers.ts';
import { getSheet } from '../api/bikes.ts';
import { onChange } from '../api/changes.ts';
import { keepingFocus } from '../dom/keeping-focus.ts';
import { fill, listen, make } from '../dom/make.ts';
import { withCautions } from '../page/cautions.ts';
import { icon } from '../page/icons.ts';
import { loadInto } from '../page/load-into.ts';
import { namePage } from '../page/name-page.ts';
import { unlessRemoved } from '../page/nothing-there.ts';
import { points } from '../page/points.ts';
import { soon } from '../page/soon.ts';
import { stateMark } from '../page/state-mark.ts';
import type { View } from '../router/router.ts';
import { day, dayAndTime, inOwnZone } from '../words/dates.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import { chanceFigure, percentRange } from '../words/numbers.ts';
import { setAsideWords } from '../words/set-aside-words.ts';
import { staleFigures } from '../words/stale-words.ts';
import { standingKey, standingOf, stateLabel } from '../words/state-words.ts';
import { ownZone } from '../words/time-zone.ts';
import { troublePeriod } from '../words/trouble-period.ts';
import { fitToPage } from './fit-to-page.ts';
import { sheetChart } from './sheet-chart.ts';

/** So much of each list has room on one page. */
const SHOWN_CAUSES = 4;
const SHOWN_EVIDENCE = 3;
const SHOWN_ADJUSTMENTS = 3;

/** A sentence of the report with its dates in the reader's time zone. */
const dated = ({ adjustmentsLog, ridesAt }: SheetData, sentence: string): string =>
  inOwnZone(
    sentence,
    adjustmentsLog.map(({ at }) => at),
    ridesAt,
  );

/** A line to write on by hand. */
const blank = (label: string): HTMLElement => make('p', { class: 'blank' }, make('span', {}, label));

function head(sheet: SheetData): HTMLElement {
  const { state } = sheet;
  const period = sheet.firstRideAt && sheet.lastRideAt ? `, ${day(sheet.firstRideAt)} to ${day(sheet.lastRideAt)}` : '';
  return make(
    'header',
    { class: 'sheet-head' },
    make(
      'div',
      {},
      make('p', { class: 'sheet-kind' }, 'Service sheet'),
      make('h1', { tabindex: -1 }, sheet.bike.name),
      make('p', {}, `${drivetrainLine(sheet.bike)}. ${counted(sheet.rides, 'ride')}${period}.`),
    ),
    make(
      'p',
      { class: `sheet-state is-${standingKey(state)}` },
      stateMark(standingOf(state)),
      make('strong', {}, stateLabel(state)),
      state.troubleRate !== null &&
        make(
          'span',
          {},
          `${percent(state.troubleRate)} of ${counted(state.judgedShifts, 'judged shift')} in trouble ${troublePeriod(state)}; 95\u00a0%: ${percentRange(state.low, state.high)}`,
        ),
    ),
  );
}

/** What can hurt, before all else that is said. */
function dangers(sheet: SheetData): HTMLElement | null {
  const all = sheet.state.dangers;
  if (all.length === 0) return null;
  return make('div', { class: 'sheet-dangers' }, ...all.map((danger) => make('p', {}, dated(sheet, danger))));
}

/** That its keeper set the bike aside, and why. */
function aside(sheet: SheetData): HTMLElement | null {
  const words = setAsideWords(sheet);
  return words === null ? null : make('p', { class: 'sheet-aside' }, words);
}

/** That the figures are not up to date, where they are not. */
function stale(sheet: SheetData): HTMLElement | null {
  const words = staleFigures(sheet);
  return words === null ? null : make('p', { class: 'sheet-stale' }, words);
}

function work(sheet: SheetData): HTMLElement | null {
  const { suggestion } = sheet;
  if (!suggestion) return null;
  // what was logged or ridden since may change it
  if (sheet.pending > 0) return waitForWork(sheet);
  const { steps, start } = stepList(suggestion);
  const { follows } = cautionsByPlace(suggestion);
  const about = stepIsAbout(suggestion);
  // a bike that shifts well has nothing to do and to tick off
  const atRest = sheet.state.word === 'fine' && !suggestion.namesCause && !suggestion.inspectFirst;
  const task = (text: string): HTMLElement => make('li', { class: atRest ? null : 'task' }, text);
  return make(
    'section',
    { class: 'sheet-work' },
    make('h2', {}, about === null ? 'What to do' : `What to do: ${parameterName(about)}`),
    withCautions(suggestion, sheet.state, [
      make(
        'ol',
        { class: 'tasks' },
        ...steps.map((step) => task(dated(sheet, step))),
        start !== null && task(dated(sheet, start)),
        // in a list of work its place says when
        follows && task(suggestion.namesCause ? follows.what : `${follows.when}: ${follows.what}`),
        task(dated(sheet, suggestion.verify)),
      ),
    ]),
  );
}

function waitForWork({ staleReason, suggestion, state }: SheetData): HTMLElement {
  const wait = make('p', {}, ...(staleReason === null ? [] : [`${staleReason} `]), 'The next step follows then.');
  return make(
    'section',
    { class: 'sheet-work' },
    make('h2', {}, 'What to do'),
    suggestion ? withCautions(suggestion, state, [wait]) : wait,
  );
}

function causes(sheet: SheetData): HTMLElement | null {
  const { weighed } = sheet;
  if (!weighed || showsNothing({ diagnosis: { weighed } })) return null;
  return make(
    'section',
    {},
    make('h2', {}, sheet.causesTitle),
    sheet.verdict && make('p', {}, dated(sheet, sheet.verdict)),
    make(
      'ol',
      { class: 'sheet-causes' },
      ...sheet.causes
        .slice(0, SHOWN_CAUSES)
        .map(({ cause, probability, evidence }, rank) =>
          make(
            'li',
            {},
            make('strong', {}, chanceFigure(probability)),
            make(
              'span',
              {},
              upperFirst(causeWords(cause, sheet.bike.actuation).name),
              rank === 0 &&
                evidence.length > 0 &&
                points(evidence.slice(0, SHOWN_EVIDENCE).map((one) => dated(sheet, one))),
            ),
          ),
        ),
    ),
  );
}

/** What was done lately and what was only looked at, each with when and what is said of it, the newest first. */
const doneLately = (sheet: SheetData): { at: string; words: string; said: string }[] =>
  [
    ...sheet.lastAdjustments.map((made) => ({
      at: made.at,
      words: adjustmentWords(made),
      said: adjustmentVerdict(made),
    })),
    ...sheet.lastLooks.map(({ at, ...look }) => ({
      at,
      words: adjustmentWords({ ...look, amount: 0 }),
      said: NOTHING_TURNED,
    })),
  ]
    .sort((a, b) => Date.parse(b.at) - Date.parse(a.at))
    .slice(0, SHOWN_ADJUSTMENTS);

function adjustments(sheet: SheetData): HTMLElement | null {
  const done = doneLately(sheet);
  if (done.length === 0) return null;
  return make(
    'section',
    {},
    make('h2', {}, 'Done lately'),
    make(
      'ul',
      { class: 'sheet-log' },
      ...done.map(({ at, words, said }) =>
        make('li', {}, make('strong', {}, `${day(at)}: ${words}`), make('span', {}, dated(sheet, said))),
      ),
    ),
  );
}

/** Room to write down by hand what was done. */
const workDone = (): HTMLElement =>
  make(
    'section',
    { class: 'sheet-hand' },
    make('h2', {}, 'Work done'),
    make(
      'div',
      { class: 'blank-lines' },
      ['What', 'Amount', 'By', 'On', 'Found', 'Ride again after'].map((label) => blank(label)),
    ),
  );

const foot = ({ generatedAt, engineVersion }: SheetData): HTMLElement =>
  make(
    'p',
    { class: 'sheet-foot' },
    `Made ${dayAndTime(generatedAt)}, ${ownZone()}${engineVersion ? `, engine ${engineVersion}` : ''}. Likelihoods from ride logs: nobody has looked at the bike. The maker’s manual and a qualified mechanic come first.`,
  );

/** Ways back and to the printer, which are not printed. */
const tools = (sheet: SheetData, bikeId: string): HTMLElement =>
  make(
    'div',
    { class: 'view-head not-printed' },
    make('a', { class: 'crumb', href: `/bikes/${bikeId}`, 'data-keep': 'crumb' }, icon('back'), sheet.bike.name),
    listen(make('button', { type: 'button', 'data-keep': 'print' }, icon('print'), 'Print'), { click: () => print() }),
  );

const page = (sheet: SheetData, roomPx: number): HTMLElement =>
  make(
    'article',
    { class: 'sheet' },
    head(sheet),
    dangers(sheet),
    aside(sheet),
    stale(sheet),
    make(
      'div',
      { class: 'sheet-halves' },
      make('div', {}, work(sheet)),
      make('div', {}, causes(sheet), adjustments(sheet)),
    ),
    sheetChart(sheet, roomPx),
    workDone(),
    foot(sheet),
  );

/** One page for the workshop: what is the matter, what to do, with room to write. */
export const sheetView: View = ({ place, parts, signal }) => {
  namePage('Service sheet');
  const show = (sheet: SheetData): void => {
    namePage(`Service sheet of ${sheet.bike.name}`);
    const paper = page(sheet, place.clientWidth);
    keepingFocus(place, () => fill(place, tools(sheet, parts.bikeId), paper));
    fitToPage(paper);
  };
  loadInto(place, 'the sheet', signal, (abort) => getSheet(parts.bikeId, abort), show);
  const refresh = async (): Promise<void> => show(await getSheet(parts.bikeId, signal));
  const refreshSoon = soon(() => unlessRemoved(place, 'the sheet', refresh), signal);
  onChange(({ bikeId }) => {
    if (!bikeId || bikeId === parts.bikeId) refreshSoon();
  }, signal);
};

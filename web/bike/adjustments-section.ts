import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';
import { adjustmentWords } from '../../src/report/words/parameter-words.ts';
import type { AdjustmentReport, Bike, LoggedAdjustment } from '../api/answers.ts';
import { addAdjustment, changeAdjustment, removeAdjustment } from '../api/bikes.ts';
import { beforeAfter } from '../charts/before-after.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { ask } from '../page/ask.ts';
import { attempt } from '../page/attempt.ts';
import { type IconName, icon } from '../page/icons.ts';
import { dayAndTime } from '../words/dates.ts';
import { upperFirst } from '../words/upper-first.ts';
import { adjustmentForm } from './adjustment-form.ts';
import type { BikePage } from './bike-page.ts';

/** What is turned on a bike, by its actuation: an electronic one has no barrel. */
const loggedWords: Readonly<Record<Bike['actuation'], string>> = {
  cable: 'turn of a screw or barrel',
  electronic: 'step of the index offset and each turn of a screw',
};

const sameMoment = (a: string, b: string): boolean => Date.parse(a) === Date.parse(b);

/** The report's comparison for an entry of the log; undefined until it has been worked out. */
const effectOf = (page: BikePage, entry: LoggedAdjustment): AdjustmentReport | undefined =>
  page.bike.report?.adjustments.find(
    (one) => one.parameter === entry.parameter && one.amount === entry.amount && sameMoment(one.at, entry.at),
  );

/** What was done and when, with its note and what it brought. */
const entryWords = (entry: LoggedAdjustment, words: string, effect: AdjustmentReport | undefined): HTMLElement =>
  make(
    'div',
    { class: 'entry-words' },
    make('h3', {}, words),
    make('p', { class: 'quiet' }, dayAndTime(entry.at)),
    entry.note && make('p', { class: 'entry-note' }, entry.note),
    make('p', {}, effect ? adjustmentVerdict(effect) : 'The comparison is being worked out.'),
  );

/** A button that shows a picture alone; `text` is for a screen reader. */
function entryTool(name: IconName, key: string, text: string, click: () => void): HTMLButtonElement {
  const attributes = { type: 'button', class: 'plain small', 'data-keep': key };
  return listen(make('button', attributes, icon(name), make('span', { class: 'out-of-sight' }, text)), { click });
}

function entryRow(page: BikePage, entry: LoggedAdjustment, commonTop: number): HTMLElement {
  const row = make('li', { class: 'entry' });
  const words = upperFirst(adjustmentWords(entry));
  const effect = effectOf(page, entry);
  const edit = (): void =>
    fill(
      row,
      adjustmentForm({
        start: entry,
        actuation: page.bike.bike.actuation,
        saveWord: 'Save',
        save: (changed) => changeAdjustment(page.bike.id, entry.id, changed),
        saved: () => done('Adjustment changed'),
        cancelled: show,
      }),
    );
  const done = async (said: string): Promise<void> => {
    row.replaceChildren();
    announce(said);
    await page.refresh();
  };
  const remove = async (): Promise<void> => {
    if (
      !(await ask(
        'Remove this adjustment?',
        `${words}, ${dayAndTime(entry.at)}. The verdict is worked out again without it.`,
        'Remove it',
      ))
    )
      return;
    await removeAdjustment(page.bike.id, entry.id);
    await done('Adjustment removed');
  };
  const show = (): void =>
    fill(
      row,
      entryWords(entry, words, effect),
      effect ? beforeAfter(effect, commonTop) : make('div', {}),
      make(
        'div',
        { class: 'entry-tools' },
        entryTool('edit', `edit-${entry.id}`, `Edit ${words}`, edit),
        entryTool('remove', `remove-${entry.id}`, `Remove ${words}`, () => void attempt(remove)),
      ),
    );
  show();
  return row;
}

/** The trouble that fills the axis which all comparisons share. */
const topRate = (adjustments: readonly AdjustmentReport[]): number =>
  Math.max(
    0.05,
    ...adjustments.flatMap(({ before, after }) =>
      [before, after].map((period) => (period.shifts > 0 ? period.high : 0)),
    ),
  );

/** The adjustment log: add, edit, remove, and what each brought. */
export function adjustmentsSection(page: BikePage): HTMLElement {
  const { bike, picks } = page;
  const entries = [...bike.adjustmentsLog].sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
  const commonTop = topRate(bike.report?.adjustments ?? []);
  const formPlace = make('div', {});
  const openButton = listen(
    make('button', { type: 'button', 'data-keep': 'log-adjustment' }, icon('add'), 'Log an adjustment'),
    { click: () => open(undefined) },
  );
  const close = (): void => {
    formPlace.replaceChildren();
    openButton.hidden = false;
    openButton.focus();
  };
  const open = (parameter: string | undefined): void => {
    openButton.hidden = true;
    fill(
      formPlace,
      adjustmentForm({
        parameter,
        actuation: bike.bike.actuation,
        saveWord: 'Log it',
        save: (made) => addAdjustment(bike.id, made),
        saved: async () => {
          close();
          announce('Adjustment logged. The verdict is being worked out again.');
          await page.refresh();
        },
        cancelled: close,
      }),
    );
  };
  const wanted = picks.get('log');
  picks.delete('log');
  const section = make(
    'section',
    { 'aria-labelledby': 'adjustments' },
    make('div', { class: 'section-head' }, make('h2', { id: 'adjustments' }, 'Adjustments'), openButton),
    formPlace,
    entries.length > 0
      ? make('ol', { class: 'entries panel' }, ...entries.map((entry) => entryRow(page, entry, commonTop)))
      : make(
          'p',
          { class: 'quiet' },
          `Nothing logged yet. Log each ${loggedWords[bike.bike.actuation]}: the rides before and after it then tell whether it helped.`,
        ),
  );
  if (wanted !== undefined) {
    open(wanted);
    requestAnimationFrame(() => {
      section.scrollIntoView({ block: 'start' });
      formPlace.querySelector('select')?.focus({ preventScroll: true });
    });
  }
  return section;
}

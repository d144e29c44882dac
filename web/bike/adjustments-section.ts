import { turnsAnything } from '../../src/adjustments/doubtful-adjustment.ts';
import { adjustmentWords } from '../../src/adjustments/parameter-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import { ridesThatCount } from '../../src/report/rides-that-count.ts';
import { adjustmentVerdict } from '../../src/report/words/adjustment-verdict.ts';
import { NOTHING_TURNED } from '../../src/report/words/look-entries.ts';
import { partsOfStep } from '../../src/report/words/parts-of-step.ts';
import type { Adjustment, AdjustmentReport, Bike, LoggedAdjustment } from '../api/answers.ts';
import { addAdjustment, changeAdjustment, removeAdjustment } from '../api/bikes.ts';
import { beforeAfter, topOfAll } from '../charts/before-after.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { onEscape } from '../dom/on-escape.ts';
import { ask } from '../page/ask.ts';
import { attempt } from '../page/attempt.ts';
import { iconButton } from '../page/icon-button.ts';
import { icon } from '../page/icons.ts';
import { dayAndTime, inOwnZone } from '../words/dates.ts';
import { ownZoneSentence, zoneDoubt } from '../words/time-zone.ts';
import { adjustmentForm } from './adjustment-form.ts';
import { adjustmentsFile } from './adjustments-file.ts';
import type { BikePage } from './bike-page.ts';
import { keepMore, type MoreOfStep, moreLeft, moreOfStep } from './more-of-step.ts';
import { turningAdvice } from './turning-advice.ts';

/** What is turned on a bike, by its actuation: an electronic one has no barrel. */
const loggedWords: Readonly<Record<Bike['actuation'], string>> = {
  cable: 'turn of a screw or barrel',
  electronic: 'step of the index offset and each turn of a screw',
};

const actuationOf = ({ bike, bikeSource }: BikePage['bike']) => ({
  actuation: bike.actuation,
  guessed: bikeSource === 'guessed',
});

const sameMoment = (a: string, b: string): boolean => Date.parse(a) === Date.parse(b);

/** The report's comparison for an entry of the log; undefined until it has been worked out. */
const effectOf = (page: BikePage, entry: LoggedAdjustment): AdjustmentReport | undefined =>
  page.bike.report?.adjustments.find(
    (one) => one.parameter === entry.parameter && one.amount === entry.amount && sameMoment(one.at, entry.at),
  );

/** What was done and when, with its note and what it brought. */
const entryWords = (entry: LoggedAdjustment, words: string, brought: string, doubt: string | null): HTMLElement =>
  make(
    'div',
    { class: 'entry-words' },
    make('h3', {}, words),
    make('p', { class: 'quiet' }, dayAndTime(entry.at)),
    entry.note && make('p', { class: 'entry-note' }, entry.note),
    make('p', {}, brought),
    doubt && make('p', { class: 'remark' }, doubt),
  );

/** What an entry brought, with its dates in the reader's time zone. */
function whatItBrought({ bike }: BikePage, entry: LoggedAdjustment, effect: AdjustmentReport | undefined): string {
  if (!effect) return turnsAnything(entry) ? 'The comparison is being worked out.' : NOTHING_TURNED;
  return inOwnZone(
    adjustmentVerdict(effect),
    bike.adjustmentsLog.map(({ at }) => at),
  );
}

/** Asks, then takes the entry out of the log. False where the reader keeps it. */
async function removeAfterAsking(page: BikePage, entry: LoggedAdjustment, words: string): Promise<boolean> {
  const yes = await ask(
    'Remove this adjustment?',
    `${words}, ${dayAndTime(entry.at)}. The verdict is worked out again without it.`,
    'Remove it',
  );
  if (yes) await removeAdjustment(page.bike.id, entry);
  return yes;
}

function entryTools(id: string, words: string, edit: () => void, remove: () => void): HTMLElement {
  return make(
    'div',
    { class: 'entry-tools' },
    iconButton({ name: 'edit', words: `Edit ${words}`, keep: `edit-${id}`, click: edit }),
    iconButton({ name: 'remove', words: `Remove ${words}`, keep: `remove-${id}`, click: remove }),
  );
}

function entryRow(page: BikePage, entry: LoggedAdjustment, commonTop: number): HTMLElement {
  const row = make('li', { class: 'entry' });
  const words = upperFirst(adjustmentWords(entry));
  const effect = effectOf(page, entry);
  const { report } = page.bike;
  const doubt = report && turnsAnything(entry) ? zoneDoubt(entry.at, ridesThatCount(report)) : null;
  const edit = (): void => {
    const form = adjustmentForm({
      start: entry,
      ...actuationOf(page.bike),
      saveWord: 'Save',
      save: (changed) => changeAdjustment(page.bike.id, entry, changed),
      saved: async () => {
        leave();
        announce('Adjustment changed');
        await page.refresh();
      },
      cancelled: leave,
    });
    fill(row, onEscape(form, leave));
    form.querySelector('select')?.focus();
  };
  const leave = (): void => {
    show();
    row.querySelector('button')?.focus();
  };
  const remove = async (): Promise<void> => {
    if (!(await removeAfterAsking(page, entry, words))) return;
    // the row goes with its buttons: what stays is the button for a new one
    document.querySelector<HTMLElement>('[data-keep="log-adjustment"]')?.focus();
    row.replaceChildren();
    announce('Adjustment removed');
    await page.refresh();
  };
  const show = (): void =>
    fill(
      row,
      entryWords(entry, words, whatItBrought(page, entry, effect), doubt),
      effect ? beforeAfter(effect, commonTop) : make('div', {}),
      entryTools(entry.id, words, edit, () => void attempt(remove)),
    );
  show();
  return row;
}

const restOfStep = (parts: readonly string[], { parameter, at }: Adjustment): MoreOfStep => ({
  parts: parts.filter((part) => part !== parameter),
  at,
});

/** Offers what is left of a step of which a part was logged; null where nothing is. */
function stepGoesOn({ picks }: BikePage, newEntry: NewEntry): HTMLElement | null {
  const more = moreLeft(picks);
  if (!more) return null;
  const offer = moreOfStep(more, (part) => {
    if (part !== null) {
      newEntry.open(part, more);
      return;
    }
    offer.remove();
    keepMore(picks, { ...more, parts: [] });
    newEntry.button.focus();
  });
  return offer;
}

/** A button that gives way to the form for a new entry, and where that form stands. */
class NewEntry {
  readonly button: HTMLButtonElement;
  readonly place = make('div', {});
  readonly #page: BikePage;
  /** What the form was opened by; it gets the focus back where nothing is logged. */
  #opener: Element | null = null;

  constructor(page: BikePage) {
    this.#page = page;
    this.button = listen(
      make('button', { type: 'button', 'data-keep': 'log-adjustment' }, icon('add'), 'Log an adjustment'),
      { click: () => this.open(undefined) },
    );
    onEscape(this.place, () => this.#leave());
  }

  /**
   * Opens the form, for a parameter where one is named, and puts the focus into it as soon as it is on the page.
   *
   * @param step what it is a part of: what else of it is left to be logged, and when the part before was done, where there was one
   */
  open(parameter: string | undefined, step?: { readonly parts: readonly string[]; readonly at?: string }): void {
    const { bike, picks } = this.#page;
    this.#opener = document.activeElement;
    this.button.hidden = true;
    let logged: Adjustment | null = null;
    fill(
      this.place,
      adjustmentForm({
        parameter,
        at: step?.at,
        ...actuationOf(bike),
        advice: turningAdvice(bike.report),
        saveWord: 'Log it',
        save: (made) => {
          logged = made;
          return addAdjustment(bike.id, made);
        },
        saved: async () => {
          if (step && logged) keepMore(picks, restOfStep(step.parts, logged));
          this.#close(this.button);
          announce('Adjustment logged. The verdict is being worked out again.');
          await this.#page.refresh();
        },
        cancelled: () => this.#leave(),
      }),
    );
    this.place.querySelector('select')?.focus();
  }

  #leave(): void {
    const opener = this.#opener;
    this.#close(opener instanceof HTMLElement && opener.matches('button') && opener.isConnected ? opener : this.button);
  }

  #close(next: HTMLElement): void {
    this.place.replaceChildren();
    this.button.hidden = false;
    next.focus();
  }
}

/** The entries, newest first, or words that there are none. */
function entryList(page: BikePage): HTMLElement {
  const { bike } = page;
  const entries = [...bike.adjustmentsLog].sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
  const commonTop = topOfAll(bike.report?.adjustments ?? []);
  if (entries.length > 0)
    return make('ol', { class: 'entries panel' }, ...entries.map((entry) => entryRow(page, entry, commonTop)));
  const each = loggedWords[bike.bike.actuation];
  return make(
    'p',
    { class: 'quiet' },
    `Nothing logged yet. Log each ${each}, or take in a file (CSV or JSON): the rides before and after it then tell whether it helped.`,
  );
}

/** The adjustment log: add, edit, remove, and what each brought. */
export function adjustmentsSection(page: BikePage): HTMLElement {
  const { picks, bike } = page;
  const newEntry = new NewEntry(page);
  const file = adjustmentsFile(page);
  const wanted = picks.get('log');
  picks.delete('log');
  const section = make(
    'section',
    { 'aria-labelledby': 'adjustments' },
    make(
      'div',
      { class: 'section-head' },
      make('h2', { id: 'adjustments' }, 'Adjustments'),
      make('div', { class: 'row' }, file.button, newEntry.button),
    ),
    file.outcome,
    wanted === undefined && stepGoesOn(page, newEntry),
    newEntry.place,
    bike.adjustmentsLog.length > 0 && make('p', { class: 'quiet zone' }, ownZoneSentence()),
    entryList(page),
  );
  if (wanted !== undefined) {
    newEntry.open(wanted, { parts: bike.report ? partsOfStep(bike.report.diagnosis.suggestion) : [] });
    requestAnimationFrame(() => {
      section.scrollIntoView({ block: 'start' });
      newEntry.place.querySelector('select')?.focus({ preventScroll: true });
    });
  }
  return section;
}

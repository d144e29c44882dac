import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary, StateWord } from '../api/answers.ts';
import { announce } from '../dom/announce.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { stateMark } from '../page/state-mark.ts';
import { noteQuery } from '../router/note-query.ts';
import { stateWords } from '../words/state-words.ts';

interface Row {
  readonly bike: BikeSummary;
  readonly element: HTMLElement;
}

const WORTH_FROM = 4;

/** A button that picks a state, with how many bikes are in it; null: all of them. */
function stateChoice(word: StateWord | null, count: number, click: () => void): HTMLButtonElement {
  const button = make(
    'button',
    { type: 'button', class: 'choice', value: word ?? '' },
    word && stateMark(word),
    word ? `${stateWords[word].label} ` : 'All ',
    make('span', { class: 'count' }, count),
  );
  return listen(button, { click });
}

/** A choice of bikes. */
export interface RowFilter {
  readonly element: HTMLElement;
  /** Takes the rows over, in their order, and hides those that do not fit. */
  show(rows: readonly Row[]): void;
}

/** Picks rows by state and by name; keeps its choice when the rows are drawn again, and in the address. Hidden while there are few bikes. */
export const makeRowFilter = (query: URLSearchParams): RowFilter => new StateAndNameFilter(query);

const wordOf = (key: string | null): StateWord | null =>
  (Object.keys(stateWords) as StateWord[]).find((word) => stateWords[word].key === key) ?? null;

class StateAndNameFilter implements RowFilter {
  readonly element: HTMLElement;
  readonly #name: HTMLInputElement;
  readonly #states = make('div', { class: 'row', role: 'group', 'aria-label': 'Show' });
  readonly #none = make('p', { class: 'nothing', hidden: true }, 'No bike fits. Choose “All” or clear the name.');
  #rows: readonly Row[] = [];
  #picked: StateWord | null;

  constructor(query: URLSearchParams) {
    const nameId = freshId('name');
    this.#picked = wordOf(query.get('state'));
    this.#name = make('input', { id: nameId, type: 'search', autocomplete: 'off', value: query.get('name') });
    listen(this.#name, { input: () => this.#changed() });
    this.element = make(
      'div',
      { class: 'row-filter' },
      this.#states,
      make('div', { class: 'field is-inline' }, make('label', { for: nameId }, 'Name'), this.#name),
      this.#none,
    );
  }

  show(rows: readonly Row[]): void {
    this.#rows = rows;
    // The rows come with the bike that needs a hand most first, and so do the states.
    const present = [...new Set(rows.map((row) => row.bike.state.word))];
    if (this.#picked && !present.includes(this.#picked)) this.#picked = null;
    this.#drawStates(present);
    this.element.hidden = rows.length < WORTH_FROM;
    this.#apply();
  }

  /** Draws the buttons anew; the one that had the focus keeps it. */
  #drawStates(present: readonly StateWord[]): void {
    const active = document.activeElement;
    const focused = this.#states.contains(active) ? (active as HTMLButtonElement).value : null;
    const count = (word: StateWord): number => this.#rows.filter((row) => row.bike.state.word === word).length;
    fill(
      this.#states,
      this.#choice(null, this.#rows.length),
      ...present.map((word) => this.#choice(word, count(word))),
    );
    if (focused !== null)
      this.#buttons()
        .find((button) => button.value === focused)
        ?.focus();
  }

  #choice(word: StateWord | null, count: number): HTMLButtonElement {
    return stateChoice(word, count, () => {
      this.#picked = word;
      this.#changed();
    });
  }

  #changed(): void {
    noteQuery({ state: this.#picked ? stateWords[this.#picked].key : '', name: this.#name.value.trim() });
    this.#apply();
  }

  #buttons(): HTMLButtonElement[] {
    return [...this.#states.querySelectorAll('button')];
  }

  #apply(): void {
    // what cannot be seen and changed must not hide a bike
    const [wanted, picked] = this.element.hidden ? ['', null] : [this.#name.value.trim().toLowerCase(), this.#picked];
    let shown = 0;
    for (const { bike, element } of this.#rows) {
      const isPicked = !picked || bike.state.word === picked;
      const fits = isPicked && bike.bike.name.toLowerCase().includes(wanted);
      element.hidden = !fits;
      if (fits) shown += 1;
    }
    this.#none.hidden = shown > 0 || this.#rows.length === 0;
    for (const button of this.#buttons())
      button.setAttribute('aria-pressed', String(button.value === (this.#picked ?? '')));
    if (picked || wanted) announce(`${counted(shown, 'bike')} shown`);
  }
}

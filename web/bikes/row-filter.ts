import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary, StateWord } from '../api/answers.ts';
import { announce } from '../dom/announce.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { stateMark } from '../page/state-mark.ts';
import { stateWords } from '../words/state-words.ts';

interface Row {
  readonly bike: BikeSummary;
  readonly element: HTMLElement;
}

const worthFrom = 4;

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

/** Picks rows by state and by name; keeps its choice when the rows are drawn again. Hidden while there are few bikes. */
export function makeRowFilter(): { readonly element: HTMLElement; show(rows: readonly Row[]): void } {
  let rows: readonly Row[] = [];
  let picked: StateWord | null = null;
  const nameId = freshId('name');
  const name = make('input', { id: nameId, type: 'search', autocomplete: 'off' });
  const states = make('div', { class: 'row', role: 'group', 'aria-label': 'Show' });
  const none = make('p', { class: 'nothing', hidden: true }, 'No bike fits. Choose “All” or clear the name.');

  const apply = (): void => {
    const wanted = name.value.trim().toLowerCase();
    let shown = 0;
    for (const { bike, element } of rows) {
      const fits = (!picked || bike.state.word === picked) && bike.bike.name.toLowerCase().includes(wanted);
      element.hidden = !fits;
      if (fits) shown += 1;
    }
    none.hidden = shown > 0 || rows.length === 0;
    for (const button of states.querySelectorAll('button'))
      button.setAttribute('aria-pressed', String(button.value === (picked ?? '')));
    if (picked || wanted) announce(`${counted(shown, 'bike')} shown`);
  };
  const choice = (word: StateWord | null, count: number): HTMLButtonElement =>
    stateChoice(word, count, () => {
      picked = word;
      apply();
    });
  listen(name, { input: apply });
  const element = make(
    'div',
    { class: 'row-filter' },
    states,
    make('div', { class: 'field is-inline' }, make('label', { for: nameId }, 'Name'), name),
    none,
  );
  return {
    element,
    show: (next) => {
      rows = next;
      // The rows come with the bike that needs a hand most first, and so do the states.
      const present = [...new Set(rows.map((row) => row.bike.state.word))];
      if (picked && !present.includes(picked)) picked = null;
      const focused = states.contains(document.activeElement)
        ? (document.activeElement as HTMLButtonElement).value
        : null;
      fill(
        states,
        choice(null, rows.length),
        ...present.map((word) => choice(word, rows.filter((row) => row.bike.state.word === word).length)),
      );
      if (focused !== null) [...states.querySelectorAll('button')].find((button) => button.value === focused)?.focus();
      element.hidden = rows.length < worthFrom;
      apply();
    },
  };
}
